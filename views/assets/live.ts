import { followTyping } from './_follow.ts'
import { forget, keep, kept, putBack, typedIn } from './_kept-form.ts'

const beds = document.querySelector<HTMLFormElement>('form[data-kept="beds"]')
const contact = document.querySelector<HTMLFormElement>('form[data-kept="contact"]')

if (beds) startBeds(beds)
if (contact) startContact(contact)
if (document.querySelector('[data-sent]') && kept('sending')) {
  for (const name of ['beds', 'contact', 'sending']) forget(name)
}

function startBeds(form: HTMLFormElement): void {
  const before = kept('beds')
  const asked = new URLSearchParams(location.search)
  if (location.pathname === '/' && !asked.has('beds.0.shape') && before) {
    keep('back', 'yes')
    location.replace(`/?${before}`)
    return
  }
  const note = document.getElementById('kept')
  if (note) note.hidden = !kept('back')
  forget('back')
  const save = () => {
    const query = typedIn(form)
    keep('beds', query)
    // So that a page that the phone threw away comes back as it was.
    history.replaceState(null, '', `/?${query}`)
    const other = document.querySelector<HTMLAnchorElement>('a.language')
    if (other) other.href = `/?${query}&language=${other.hreflang}`
  }
  followTyping(form, save)
  let startedOver = false
  // The page is hidden by leaving it too, and what was just forgotten must not come back by that.
  document.addEventListener('visibilitychange', () => document.hidden && !startedOver && save())
  for (const link of document.querySelectorAll('[data-start-over]')) {
    link.addEventListener('click', () => {
      startedOver = true
      forget('beds')
    })
  }
}

function startContact(form: HTMLFormElement): void {
  const before = kept('contact')
  const refused = document.querySelector('.errors')
  if (before && !refused) putBack(form, before)
  forget('sending')
  form.addEventListener('input', () => keep('contact', typedIn(form)))
  form.addEventListener('submit', () => keep('sending', 'yes'))
}
