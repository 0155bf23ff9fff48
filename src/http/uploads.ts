import type { FastifyInstance } from 'fastify'
import { Refusal } from './errors.ts'

/** What a form with a file in it sent, by its fields' names; of a field sent twice the last one. */
export class Uploaded {
  /** The files that were chosen; a field left empty has none. */
  readonly files: Record<string, File> = Object.create(null)
  readonly fields: Record<string, string> = Object.create(null)
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
      const uploaded = new Uploaded()
      for (const [name, value] of await readForm(request.headers['content-type']!, body))
        if (typeof value === 'string') uploaded.fields[name] = value
        else if (value.size > 0) uploaded.files[name] = value
      return uploaded
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
