for (const button of document.querySelectorAll<HTMLButtonElement>('[data-copy]')) {
  const field = document.getElementById(button.dataset.copy ?? '')
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) continue
  const label = button.textContent
  button.hidden = false
  button.addEventListener('click', async () => {
    field.select()
    button.textContent = (await copy(field.value)) ? 'Copied' : 'Marked: copy it now'
    setTimeout(() => {
      button.textContent = label
    }, 2500)
  })
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
