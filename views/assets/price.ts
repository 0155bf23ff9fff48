import { allFields, followTyping } from './_follow.ts'

const form = document.querySelector<HTMLFormElement>('form.price')
if (form) followTyping(form, { part: 'live', fields: () => allFields(form), address: form.action })
