const PREFIX = 'bedwright-'
const DAYS_KEPT = 30

/** What was typed, kept on this device until it is sent; a browser that keeps nothing does no harm. */
export function keep(name: string, text: string): void {
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify({ at: Date.now(), text }))
  } catch {
    // Full, or switched off.
  }
}

export function kept(name: string): string | null {
  try {
    const { at, text } = JSON.parse(localStorage.getItem(PREFIX + name) ?? '{}')
    const fresh = typeof at === 'number' && Date.now() - at < DAYS_KEPT * 86_400_000
    return fresh && typeof text === 'string' ? text : null
  } catch {
    return null
  }
}

export function forget(name: string): void {
  try {
    localStorage.removeItem(PREFIX + name)
  } catch {
    // Nothing was kept then.
  }
}

/** The filled-in fields that a person sees, as a query. */
export function typedIn(form: HTMLFormElement): string {
  const query = new URLSearchParams()
  for (const [name, value] of new FormData(form)) {
    if (typeof value === 'string' && value !== '' && !isUnseen(form, name)) query.append(name, value)
  }
  return query.toString()
}

/** Whether a size of any bed is in a query. */
export function hasSizes(query: string): boolean {
  return new URLSearchParams(query).keys().some(name => name.includes('.sizes.'))
}

/** Puts kept fields back where nothing is typed yet. */
export function putBack(form: HTMLFormElement, query: string): void {
  for (const [name, value] of new URLSearchParams(query)) {
    const field = form.elements.namedItem(name)
    const box = field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement ? field : null
    if (box && box.value === '' && !isUnseen(form, name)) box.value = value
  }
}

function isUnseen(form: HTMLFormElement, name: string): boolean {
  const field = form.elements.namedItem(name)
  return field instanceof HTMLInputElement && (field.type === 'hidden' || field.tabIndex < 0)
}
