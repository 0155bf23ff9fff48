/** Everything that the sheet sends, as a query. */
export function fieldsOf(form: HTMLFormElement): string {
  return new URLSearchParams([...new FormData(form)] as [string, string][]).toString()
}

/**
 * Of a sheet with stops what is filled in, and at which stop somebody types: what follows from the beds of others needn't
 * be drawn again.
 */
export function nearFields(form: HTMLFormElement): [string, string][] {
  const filled = [...new FormData(form)].filter(([, value]) => value !== '') as [string, string][]
  const stop = document.activeElement?.closest<HTMLElement>('details[data-stop]')?.dataset.stop
  return stop === undefined ? filled : [...filled, ['near', stop]]
}

export function hasStopsIn(query: string): boolean {
  return [...new URLSearchParams(query).keys()].some(name => name.startsWith('stops.'))
}

/** Fills the sheet in as a query of `fieldsOf` says, with the beds that were added to it; what was changed is unfolded. */
export function fillIn(form: HTMLFormElement, query: string): void {
  const typed = new URLSearchParams(query)
  const last = Math.max(-1, ...[...typed.keys()].map(name => Number(/^beds\.(\d+)\./.exec(name)?.[1] ?? -1)))
  while (bedsOn(form) <= last && addBed(form, { andGoThere: false })) {
    // Until all of them stand there.
  }
  for (const field of form.elements) {
    if (field instanceof HTMLInputElement && ['radio', 'checkbox'].includes(field.type)) {
      field.checked = typed.getAll(field.name).includes(field.value)
      if (field.checked !== field.defaultChecked) unfold(field)
    } else if (isWritten(field)) {
      const value = typed.get(field.name)
      if (value === null || value === field.value) continue
      field.value = value
      unfold(field)
    }
  }
  form.dispatchEvent(new Event('input', { bubbles: true }))
}

/**
 * Puts one more bed behind the others, or those of a stop, from the page's own template; false where it has none, as the
 * sheet is full.
 */
export function addBed(
  form: HTMLFormElement,
  { at = null, andGoThere = true }: { at?: HTMLElement | null; andGoThere?: boolean } = {},
): boolean {
  const blank = document.querySelector<HTMLTemplateElement>('template[data-blank-bed]')
  const most = Number(blank?.dataset.blankBed)
  const next = bedsOn(form)
  if (!blank || next >= most) return false
  const holder = document.createElement('template')
  holder.innerHTML = blank.innerHTML
    .replaceAll(`beds.${most}.`, `beds.${next}.`)
    .replaceAll(`beds-${most}-`, `beds-${next}-`)
    .replaceAll(new RegExp(`\\bbed-${most + 1}\\b`, 'g'), `bed-${next + 1}`)
  const added = holder.content.querySelector('fieldset.bed')!
  const stop = added.querySelector<HTMLInputElement>(`input[name="beds.${next}.stop"]`)
  if (stop) stop.value = at?.dataset.stop ?? '0'
  ;(at?.querySelector('.bed-add') ?? blank).before(holder.content)
  if (andGoThere) added.querySelector<HTMLElement>('input:not([type=hidden]), select')?.focus()
  return true
}

function bedsOn(form: HTMLFormElement): number {
  return form.querySelectorAll('fieldset.bed').length
}

function isWritten(field: Element): field is HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement {
  if (field instanceof HTMLInputElement) return field.type !== 'hidden'
  return field instanceof HTMLSelectElement || field instanceof HTMLTextAreaElement
}

function unfold(field: HTMLElement): void {
  const fold = field.closest('details')
  if (fold) fold.open = true
}
