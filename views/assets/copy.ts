for (const button of document.querySelectorAll<HTMLButtonElement>('[data-copy]')) {
  const source = document.getElementById(button.dataset.copy ?? '')
  if (!source) continue
  const label = button.textContent
  const { copied = 'Copied', marked = 'Marked: copy it now' } = button.dataset
  button.hidden = false
  button.addEventListener('click', async () => {
    const isCopied = await copy(textOf(source))
    if (!isCopied) mark(source)
    button.textContent = isCopied ? copied : marked
    setTimeout(() => {
      button.textContent = label
    }, 2500)
  })
}

function isField(element: HTMLElement): element is HTMLInputElement | HTMLTextAreaElement {
  return element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement
}

function textOf(element: HTMLElement): string {
  return isField(element) ? element.value : element.textContent
}

/** Marks what couldn't be copied, so that it can be by hand. */
function mark(element: HTMLElement): void {
  // What is folded away can't be marked.
  element.closest('details')?.setAttribute('open', '')
  if (isField(element)) element.select()
  else getSelection()?.selectAllChildren(element)
}

// The clipboard is there on https and localhost only.
async function copy(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text)
    return true
  } catch {
    return false
  }
}
