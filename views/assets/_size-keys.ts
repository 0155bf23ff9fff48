/**
 * Gives sizes a keypad of digits on phones, and beside them the few signs that it lacks. Without a script they have the
 * keys of any text.
 */
export function offerSizeKeys(form: HTMLFormElement): void {
  if (!matchMedia('(pointer: coarse)').matches) return
  let size: HTMLInputElement | undefined
  for (const input of form.querySelectorAll<HTMLInputElement>('[data-size]')) input.inputMode = 'decimal'
  form.addEventListener('focusin', ({ target }) => {
    if (!(target instanceof HTMLInputElement) || target.dataset.size === undefined) return
    size = target
    keysOf(target).hidden = false
  })
  // Pressed, a key takes neither the caret from the size nor the keypad away.
  form.addEventListener('mousedown', event => {
    if ((event.target as HTMLElement).closest('.key')) event.preventDefault()
  })
  form.addEventListener('click', event => {
    const key = (event.target as HTMLElement).closest<HTMLElement>('.key')
    if (!key || !size || keysOf(size) !== key.parentElement) return
    if (key.dataset.puts !== undefined) put(size, key.dataset.puts)
    else changeKeypad(size)
  })
}

function keysOf(size: HTMLInputElement): HTMLElement {
  return size.closest('.sizes')!.querySelector<HTMLElement>('.size-keys')!
}

function put(size: HTMLInputElement, sign: string): void {
  size.focus()
  const [from, to] = [size.selectionStart ?? size.value.length, size.selectionEnd ?? size.value.length]
  size.setRangeText(sign, from, to, 'end')
  size.dispatchEvent(new InputEvent('input', { bubbles: true }))
}

// A keypad that is open changes only as it opens anew.
function changeKeypad(size: HTMLInputElement): void {
  size.inputMode = size.inputMode === 'text' ? 'decimal' : 'text'
  size.blur()
  size.focus()
}
