import type { FastifyInstance } from 'fastify'
import { Refusal } from './errors.ts'

/** What a form with a file in it sent, by its fields' names; of a field sent twice the last one. */
export interface Uploaded {
  files: Record<string, File>
  fields: Record<string, string>
}

/**
 * Lets the routes of this scope take forms with a file (multipart/form-data), of `limit` bytes in all; more is refused
 * with 413, and what can't be read with 400. All of it is held in memory.
 */
export function takeUploads(scope: FastifyInstance, limit: number): void {
  scope.addContentTypeParser(
    'multipart/form-data',
    { parseAs: 'buffer', bodyLimit: limit },
    async (request: { headers: { 'content-type'?: string } }, body: Buffer): Promise<Uploaded> => {
      const files: Record<string, File> = Object.create(null)
      const fields: Record<string, string> = Object.create(null)
      for (const [name, value] of await readForm(request.headers['content-type']!, body))
        if (value instanceof File) files[name] = value
        else fields[name] = value
      return { files, fields }
    },
  )
}

async function readForm(type: string, body: Buffer): Promise<FormData> {
  try {
    return await new Response(new Uint8Array(body), { headers: { 'content-type': type } }).formData()
  } catch {
    throw new Refusal(400, 'error.400')
  }
}

/** An uploaded file; null where none was chosen, or the body is another form's. */
export function uploadedFile(body: unknown, name: string): File | null {
  const file = (body as Partial<Uploaded> | null | undefined)?.files?.[name]
  return file instanceof File && file.size > 0 ? file : null
}

/** The bytes of an uploaded file, or null in the same way. */
export async function uploadedBytes(body: unknown, name: string): Promise<Uint8Array | null> {
  const file = uploadedFile(body, name)
  return file && new Uint8Array(await file.arrayBuffer())
}

/** What was typed beside the files. */
export function uploadedFields(body: unknown): Record<string, string | undefined> {
  return (body as Partial<Uploaded> | null | undefined)?.fields ?? {}
}
