import { allFields, followTyping } from './_follow.ts'
import { forget, keep, kept } from './_kept-form.ts'
import { offerMarks } from './_marks.ts'
import { addBed, fieldsOf, fillIn } from './_sheet-fields.ts'

const SLOWEST = 30_000
const NOTES = ['kept', 'not-saved', 'signed-out', 'refused']

const found = document.querySelector<HTMLFormElement>('form[data-sheet]')
if (found) begin(found)

/** The site-visit sheet: what is typed is kept on this device until it is saved, and worked out while there is a signal. */
function begin(form: HTMLFormElement): void {
  const name = `sheet-${form.dataset.sheet}`
  let startedOver = false
  const save = () => startedOver || keep(name, fieldsOf(form))
  const before = kept(name)
  const isFresh = form.dataset.fresh !== undefined
  followTyping(form, {
    part: 'live',
    fields: () => allFields(form),
    changed: save,
    address: form.dataset.follow!,
  })
  offerMarks(form)
  form.addEventListener('input', save)
  form.addEventListener('click', event => {
    const button = (event.target as HTMLElement).closest<HTMLButtonElement>('button[value="add-bed"]')
    if (button && addBed(form)) event.preventDefault()
  })
  form.addEventListener('submit', event => {
    event.preventDefault()
    const button = event.submitter as HTMLButtonElement | null
    // Enter alone presses the button that nobody sees, and saves no sheet half filled in.
    if (button?.value === 'keep' && !button.classList.contains('unseen')) send(form, name)
    else form.dispatchEvent(new Event('input', { bubbles: true }))
  })
  document.querySelector('[data-start-over]')?.addEventListener('click', () => {
    startedOver = true
    forget(name)
  })
  if (!isFresh || !before || before === fieldsOf(form)) return
  fillIn(form, before)
  say('kept')
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
  const newer = made.querySelector<HTMLFormElement>('form[data-sheet]')
  if (!newer) return say('refused', made.querySelector('h1')?.textContent ?? '')
  document.title = made.title
  document.querySelector('main')!.replaceChildren(...made.querySelector('main')!.childNodes)
  document.querySelector<HTMLElement>('.errors')?.focus()
  begin(newer)
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
