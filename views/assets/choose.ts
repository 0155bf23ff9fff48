import { allFields, followTyping } from './_follow.ts'

const form = document.querySelector<HTMLFormElement>('form#choices')
if (form) {
  followTyping(form, { part: 'live', fields: () => allFields(form), address: form.action, gets: true })
  // The total follows by itself.
  document.getElementById('show-total')!.hidden = true
}
