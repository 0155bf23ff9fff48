const WAIT = 250
const SAY_AFTER = 1500
const SOON = 5
const LATER = 0.3

export interface Following {
  /** What of the page is asked for. */
  part: 'live' | 'contact'
  /** The fields that are sent: without those that nobody needs for it. */
  fields(): [string, string][]
  /** Runs before each asking. */
  changed?(): void
  /** Where it is asked for; the ballpark where it isn’t said. */
  address?: string
  /** Where asking changes nothing and leaves an address that can be shared, by a GET. */
  gets?: boolean
}

/** The fields of a form as they are. */
export function allFields(form: HTMLFormElement): [string, string][] {
  return [...new FormData(form)] as [string, string][]
}

/**
 * Keeps the range, the drawings and what was understood up to date while somebody types into `typed`, a form or a field of it: the
 * server makes the page anew, and the parts marked data-live are taken from it by their ids.
 */
export function followTyping(
  typed: HTMLElement,
  { part, fields, changed, address = '/ballpark', gets = false }: Following,
): void {
  let waiting = 0
  let asking: AbortController | undefined
  const ask = async () => {
    changed?.()
    asking?.abort()
    asking = new AbortController()
    try {
      const headers = { accept: 'text/html', 'x-part': part }
      const sent = new URLSearchParams(fields())
      const answer = gets
        ? await fetch(`${address}?${sent}`, { headers, signal: asking.signal })
        : await fetch(address, { method: 'POST', headers, body: sent, signal: asking.signal })
      if (answer.ok) takeOver(new DOMParser().parseFromString(await answer.text(), 'text/html'))
      const isBusy = answer.status === 429 || answer.status === 503
      if (isBusy) waiting = window.setTimeout(askWhenSeen, secondsToWait(answer) * 1000)
      show('busy', isBusy)
      show('offline', false)
    } catch (error) {
      if ((error as Error).name !== 'AbortError') show('offline', true)
    }
  }
  const askWhenSeen = () => {
    if (!document.hidden) return void ask()
    document.addEventListener('visibilitychange', askWhenSeen, { once: true })
  }
  typed.addEventListener('input', event => {
    dropFault(event.target as HTMLElement)
    clearTimeout(waiting)
    waiting = window.setTimeout(ask, WAIT)
  })
  // The other spelling is put in as if it had been typed, and the page stays.
  typed.addEventListener('click', event => {
    const button = (event.target as HTMLElement).closest<HTMLElement>('[data-instead]')
    const field = button && document.getElementById(button.dataset.instead!)
    if (!(field instanceof HTMLInputElement)) return
    event.preventDefault()
    field.value = button!.dataset.spelling!
    field.dispatchEvent(new InputEvent('input', { bubbles: true }))
    field.focus()
  })
  addEventListener('online', ask)
  showStrip()
  hideAsking()
}

function takeOver(made: Document): void {
  for (const part of document.querySelectorAll<HTMLElement>('[data-live], output.echo')) {
    const newer = made.getElementById(part.id)
    if (!newer) continue
    for (const details of newer.querySelectorAll('details')) {
      const before = document.getElementById(details.id)
      if (before instanceof HTMLDetailsElement) details.open = before.open
    }
    // Whoever has just ticked a box in it goes on from there.
    const inUse = document.activeElement instanceof HTMLInputElement && part.contains(document.activeElement)
    if (!inUse && part.innerHTML !== newer.innerHTML) part.replaceChildren(...newer.childNodes)
    if (part.id !== 'range-strip') part.hidden = newer.hidden
  }
  showStrip()
  hideAsking()
  saySoon()
}

// A range that follows the typing needn't be asked for.
function hideAsking(): void {
  const [button, goOn] = [document.getElementById('ask-range'), document.getElementById('go-on')]
  if (button && goOn) button.hidden = !goOn.hidden
}

let saying = 0

// A screen reader hears the range when the typing rests, not at every key.
function saySoon(): void {
  clearTimeout(saying)
  saying = window.setTimeout(() => {
    const words = document.querySelector<HTMLElement>('[data-say]')?.dataset.say ?? ''
    const said = document.getElementById('range-said')
    if (said && said.textContent !== words) said.textContent = words
  }, SAY_AFTER)
}

let rangeInView = false
let watch: IntersectionObserver | undefined

// The strip at the bottom stands in for the range while that is out of sight.
function showStrip(): void {
  const [strip, range] = [document.getElementById('range-strip'), document.getElementById('range')]
  if (!strip || !range) return
  watch ??= new IntersectionObserver(entries => {
    rangeInView = entries.at(-1)!.isIntersecting
    showStrip()
  })
  watch.observe(range)
  strip.hidden = rangeInView || strip.childElementCount === 0
}

// Whoever is told to come back does so a little after the time that was said, not all at once, or after the next key.
function secondsToWait(answer: Response): number {
  const seconds = Number(answer.headers.get('retry-after'))
  return (seconds > 0 ? seconds : SOON) * (1 + Math.random() * LATER)
}

function show(id: string, shown: boolean): void {
  const note = document.getElementById(id)
  if (note) note.hidden = !shown
}

function dropFault(field: HTMLElement): void {
  const group = field.closest<HTMLElement>('[aria-invalid]')
  if (!group) return
  group.removeAttribute('aria-invalid')
  group.closest('.field, .choices')?.querySelector('.error')?.remove()
}
