import type { Control, Form } from './forms.ts'

export type Sent = [name: string, value: string | File][]

/** What is typed into a field whatever it asks for. */
const NONSENSE = 'no such thing'
const NO_FILE = new File([], '')
const SOME_FILE = new File(['neither a picture nor a zip'], 'nonsense.bin')

/** The ways in which a form is filled in wrong: what is sent for a control of it. */
export const FAULTY = {
  'too long': (control: Control) =>
    control.kind === 'typed' ? ['x'.repeat(control.isLong ? 6000 : 400)] : asItStands(control),
  nonsense: (control: Control) => (control.kind === 'hidden' ? asItStands(control) : [NONSENSE]),
  'tampered with': () => [NONSENSE],
  empty: ({ kind, value }: Control) => (kind === 'hidden' ? [value] : kind === 'ticked' ? [] : ['']),
}
export type Way = keyof typeof FAULTY

/** What a person puts into fields that stand empty, by the last part of their names. */
const GOOD: Record<string, string> = {
  name: 'Hugo Moss',
  typedName: 'Carol Reyes',
  phone: '(512) 555-0177',
  email: 'carol@example.com',
  street: '12 Fern Lane',
  postcode: '78702',
  reason: 'Moving',
  note: 'By the porch',
  words: 'Another time',
  length: '20 ft',
  width: '5 ft',
}

export function filledWrong(form: Form, way: Way): Sent {
  return form.controls.flatMap((control): Sent => {
    if (control.kind === 'file') return [[control.name, way === 'empty' ? NO_FILE : SOME_FILE]]
    return FAULTY[way](control).map(value => [control.name, value])
  })
}

/** As a person sends it who fills in what is empty; `files` by the names of their fields. */
export function filledRight(form: Form, files: Record<string, File> = {}): Sent {
  const ticked = new Set(
    form.controls.filter(({ kind, isSent }) => kind === 'ticked' && isSent).map(({ name }) => name),
  )
  return form.controls.flatMap((control): Sent => {
    const { name, kind, value, isSent } = control
    if (kind === 'file') return [[name, files[name] ?? NO_FILE]]
    if (kind === 'typed') return [[name, value || (GOOD[name.split('.').at(-1)!] ?? '')]]
    if (kind !== 'ticked' || isSent) return [[name, value]]
    // The first of radios of which none is picked, and whatever has to be ticked.
    if (ticked.has(name) || name.endsWith('[]')) return []
    ticked.add(name)
    return [[name, value]]
  })
}

function asItStands({ value, isSent }: Control): string[] {
  return isSent ? [value] : []
}

/** The body of a post and its type, as a browser makes them. */
export async function bodyOf(isMultipart: boolean, sent: Sent) {
  if (!isMultipart) {
    const pairs = sent.map(([name, value]) => [name, typeof value === 'string' ? value : value.name])
    return { payload: new URLSearchParams(pairs).toString(), type: 'application/x-www-form-urlencoded' }
  }
  const data = new FormData()
  for (const [name, value] of sent) data.append(name, value)
  const posted = new Response(data)
  return { payload: Buffer.from(await posted.arrayBuffer()), type: posted.headers.get('content-type')! }
}
