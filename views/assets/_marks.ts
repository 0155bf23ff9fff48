const NAMES: Record<string, string> = { "'": 'feet', '"': 'inches', '½': 'one half', ' ': 'space' }

/**
 * Puts what a number keypad lacks within reach: under a field with `data-marks`, a button for each of its signs while
 * the field is typed in. Only for fingers; a keyboard has them all.
 */
export function offerMarks(form: HTMLFormElement): void {
  if (!matchMedia('(pointer: coarse)').matches) return
  const row = document.createElement('div')
  row.className = 'marks'
  form.addEventListener('focusin', ({ target }) => {
    if (!(target instanceof HTMLInputElement) || target.dataset.marks === undefined) return row.remove()
    row.replaceChildren(...[...target.dataset.marks].map(mark => buttonFor(mark, target)))
    target.closest('.entry')?.append(row)
  })
}

function buttonFor(mark: string, field: HTMLInputElement): HTMLButtonElement {
  const button = document.createElement('button')
  button.type = 'button'
  button.tabIndex = -1
  button.className = 'button-second'
  button.textContent = mark === ' ' ? '␣' : mark
  button.setAttribute('aria-label', NAMES[mark] ?? mark)
  // The field keeps the focus, and with it the keypad.
  button.addEventListener('pointerdown', event => event.preventDefault())
  button.addEventListener('click', () => {
    const end = field.value.length
    field.setRangeText(mark, field.selectionStart ?? end, field.selectionEnd ?? end, 'end')
    field.dispatchEvent(new Event('input', { bubbles: true }))
  })
  return button
}
