/**
 * Folds the shapes of a bed shut once one is picked by a finger or a mouse, and goes on to its first size. By keyboard they stay open, as
 * each arrow picks one.
 */
export function foldPicked(form: HTMLFormElement): void {
  let pointed: HTMLInputElement | null = null
  form.addEventListener('click', event => {
    const clicked = event.target as HTMLElement
    const label = clicked.closest('.pick .choice-label')
    if (!label) return
    const input = label.querySelector('input')!
    // A click on the label is followed by one on the radio, which a key makes too, though with no count.
    if (clicked !== input) {
      if (event.detail > 0) pointed = input
      return
    }
    showPicked(input)
    if (pointed === input || event.detail > 0) goOn(input)
    pointed = null
  })
}

function showPicked(input: HTMLInputElement): void {
  const picked = input.closest('.pick')!.querySelector('.picked')!
  const shown = input.closest('.choice-label')!.querySelectorAll('.choice-drawing, .choice-text')
  picked.replaceChildren(...[...shown].map(part => part.cloneNode(true)))
}

function goOn(input: HTMLInputElement): void {
  input.closest<HTMLDetailsElement>('.pick')!.open = false
  const sizes = input.closest('.bed')!.querySelectorAll<HTMLInputElement>('[data-size]')
  const empty = [...sizes].find(size => size.value === '' && size.checkVisibility())
  empty?.focus()
}
