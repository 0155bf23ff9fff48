import { allFields, followTyping } from './_follow.ts'
import { forget, hasSizes, keep, kept, putBack, typedIn } from './_kept-form.ts'
import { sendPhotos } from './_photos.ts'
import { foldPicked } from './_picks.ts'
import { offerSizeKeys } from './_size-keys.ts'

const beds = document.querySelector<HTMLFormElement>('form[data-kept="beds"]')
const contact = document.querySelector<HTMLFormElement>('form[data-kept="contact"]')

const NOT_PERSONAL = /^(beds\.|measuredBy$|extras\[\]$|work$|postcode$|language$)/

if (beds) startBeds(beds)
if (contact) startContact(contact)
if (document.querySelector('[data-sent]') && kept('sending')) {
  for (const name of ['beds', 'contact', 'photos', 'sending']) forget(name)
}
const ownPhotos = document.querySelector<HTMLFormElement>('form[data-adds-photos]')
if (ownPhotos) sendPhotos(ownPhotos, { isKept: false })

function startBeds(form: HTMLFormElement): void {
  const before = kept('beds')
  const asked = new URLSearchParams(location.search)
  const language = asked.get('language')
  const inLanguage = language ? `&language=${language}` : ''
  // A link with a material picked gives way only to beds that somebody has begun.
  const isBegun = before && (hasSizes(before) || !asked.has('material'))
  if (location.pathname === '/' && !asked.has('beds.0.shape') && isBegun) {
    keep('back', 'yes')
    location.replace(`/?${before}${inLanguage}`)
    return
  }
  const note = document.getElementById('kept')
  if (note) note.hidden = !kept('back')
  forget('back')
  const save = () => {
    const query = typedIn(form)
    keep('beds', query)
    // So that a page that the phone threw away comes back as it was.
    history.replaceState(null, '', `/?${query}${inLanguage}`)
    const other = document.querySelector<HTMLAnchorElement>('a.language')
    if (other) other.href = `/?${query}&language=${other.hreflang}`
  }
  foldPicked(form)
  offerSizeKeys(form)
  followTyping(form, { part: 'live', fields: () => allFields(form), changed: save })
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
  sendPhotos(form, { isKept: true })
  form.addEventListener('input', () => keep('contact', typedIn(form)))
  form.addEventListener('submit', () => keep('sending', 'yes'))
  const postcode = document.getElementById('postcode')
  // Who it is isn't sent before it is sent in.
  const fields = () => allFields(form).filter(([name]) => NOT_PERSONAL.test(name))
  if (postcode) followTyping(postcode, { part: 'contact', fields })
}
