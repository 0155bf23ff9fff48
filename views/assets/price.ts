import { followTyping } from './_follow.ts'

const form = document.querySelector<HTMLFormElement>('form.price')
if (form) followTyping(form, () => {})
