import { z } from 'zod'

export type Reading<T> =
  | { ok: true; values: T }
  | { ok: false; typed: Record<string, string>; errors: Record<string, string> }

const text = z.string({ message: '' }).trim()

const noteForm = z.object({
  note: text.min(1, 'Write the note first.').max(2000, 'Keep the note under 2,000 characters.'),
})

const reasonForm = z.object({
  reason: text.min(1, 'Say why it can’t be done.').max(300, 'Say it in fewer than 300 characters.'),
})

export function readNoteForm(body: unknown): Reading<{ note: string }> {
  return read(noteForm, { note: '', ...(body as object) })
}

export function readReasonForm(body: unknown): Reading<{ reason: string }> {
  return read(reasonForm, { reason: '', ...(body as object) })
}

function read<T>(schema: z.ZodType<T>, body: Record<string, unknown>): Reading<T> {
  const parsed = schema.safeParse(body)
  if (parsed.success) return { ok: true, values: parsed.data }
  const errors = Object.fromEntries(parsed.error.issues.map(issue => [issue.path.join('.'), issue.message]))
  const typed = Object.entries(body).filter(
    (entry): entry is [string, string] => typeof entry[1] === 'string',
  )
  return { ok: false, typed: Object.fromEntries(typed), errors }
}
