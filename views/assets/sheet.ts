import { allFields, followTyping } from './_follow.ts'
import { forget, keep, kept } from './_kept-form.ts'
import { offerMarks } from './_marks.ts'
import { addBed, fieldsOf, fillIn, hasStopsIn, nearFields } from './_sheet-fields.ts'

const SLOWEST = 30_000
const NOTES = ['kept', 'not-saved', 'signed-out', 'refused', 'not-put-back', 'not-done']

const found = document.querySelector<HTMLFormElement>('form[data-sheet]')
if (found) begin(found)

/** The site-visit sheet: what is typed is kept on this device until it is saved, and worked out while there is a signal. */
function begin(form: HTMLFormElement): void {
  const name = `sheet-${form.dataset.sheet}`
  let startedOver = false
  const save = () => startedOver || keep(name, fieldsOf(form))
  const before = kept(name)
  const isFresh = form.dataset.fresh !== undefined
  const hasStops = form.dataset.stops !== undefined
  followTyping(form, {
    part: 'live',
    fields: () => (hasStops ? nearFields(form) : allFields(form)),
    changed: save,
    address: form.dataset.follow!,
  })
  offerMarks(form)
  form.addEventListener('input', save)
  form.addEventListener('click', event => {
    const button = (event.target as HTMLElement).closest<HTMLButtonElement>('button[value^="add-bed"]')
    if (button && addBed(form, { at: button.closest('details.stop') })) event.preventDefault()
  })
  form.addEventListener('submit', event => {
    event.preventDefault()
    const button = event.submitter as HTMLButtonElement | null
    // Enter alone presses the button that nobody sees, and saves no sheet half filled in.
    if (button?.value === 'keep' && !button.classList.contains('unseen')) send(form, name)
    else if (button?.dataset.deed !== undefined) doDeed(form, name, button.value)
    else form.dispatchEvent(new Event('input', { bubbles: true }))
  })
  document.querySelector('[data-start-over]')?.addEventListener('click', () => {
    startedOver = true
    forget(name)
  })
  if (!isFresh || !before || before === fieldsOf(form)) return
  if (hasStops || hasStopsIn(before)) {
    // Until it is back nothing may be kept in its place.
    startedOver = true
    putBackWhole(form, before)
    return
  }
  fillIn(form, before)
  say('kept')
}

/** Does what a button says to the stops: the server makes the sheet anew from what is typed. */
async function doDeed(form: HTMLFormElement, name: string, deed: string): Promise<void> {
  keep(name, fieldsOf(form))
  const newer = await sheetFor(form.action, `${fieldsOf(form)}&do=${deed}`)
  if (!newer) return say('not-done')
  const next = takeOver(newer)
  if (next) keep(name, fieldsOf(next))
}

/** Puts a sheet with stops back as it was typed: the server makes it, as its beds may stand elsewhere. */
async function putBackWhole(form: HTMLFormElement, before: string): Promise<void> {
  const newer = await sheetFor(form.dataset.follow!, before)
  if (!newer) return say('not-put-back')
  takeOver(newer)
  say('kept')
}

async function sheetFor(address: string, query: string): Promise<Document | null> {
  const answer = await fetch(address, {
    method: 'POST',
    headers: { accept: 'text/html' },
    body: new URLSearchParams(query),
    signal: AbortSignal.timeout(SLOWEST),
  }).catch(() => null)
  if (!answer || answer.redirected) return null
  const made = new DOMParser().parseFromString(await answer.text(), 'text/html')
  return made.querySelector('form[data-sheet]') ? made : null
}

/** Takes a newer page in place of this one. */
function takeOver(made: Document): HTMLFormElement | null {
  const newer = made.querySelector<HTMLFormElement>('form[data-sheet]')
  document.title = made.title
  document.querySelector('main')!.replaceChildren(...made.querySelector('main')!.childNodes)
  document.querySelector<HTMLElement>('.errors')?.focus()
  if (newer) begin(newer)
  return newer
}

async function send(form: HTMLFormElement, name: string): Promise<void> {
  keep(name, fieldsOf(form))
  const answer = await fetch(form.action, {
    method: 'POST',
    headers: { accept: 'text/html', 'x-part': 'save' },
    body: new URLSearchParams(`${fieldsOf(form)}&do=keep`),
    signal: AbortSignal.timeout(SLOWEST),
  }).catch(() => null)
  if (answer === null) return say('not-saved')
  if (answer.status === 204) {
    forget(name)
    return location.assign(form.dataset.next!)
  }
  if (answer.redirected) return say('signed-out')
  const made = new DOMParser().parseFromString(await answer.text(), 'text/html')
  if (!made.querySelector('form[data-sheet]'))
    return say('refused', made.querySelector('h1')?.textContent ?? '')
  takeOver(made)
}

/** Shows one of the notes that the page holds ready, and no other. */
function say(id: string, why = ''): void {
  for (const one of NOTES) {
    const note = document.getElementById(one)
    if (note) note.hidden = one !== id
  }
  const note = document.getElementById(id)
  const reason = note?.querySelector('[data-why]')
  if (reason) reason.textContent = why
  note?.focus()
}
