const NAMES: Record<string, string> = { "'": 'feet', '"': 'inches', '½': 'one half', ' ': 'space' }

/**
 * Gives fields with `data-marks` a number keypad, and puts what it lacks within reach: a button under the field for each
 * of its signs, while it is typed in. Only for fingers, and only by a script: without the buttons nobody could type
 * feet and inches on such a keypad.
 */
export function offerMarks(form: HTMLFormElement): void {
  if (!matchMedia('(pointer: coarse)').matches) return
  const blank = form.querySelector('template')?.content
  for (const part of [form, ...(blank ? [blank] : [])])
    for (const field of part.querySelectorAll<HTMLInputElement>('[data-marks]')) field.inputMode = 'decimal'
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
