import type { FastifyRequest } from 'fastify'
import { fieldsIn, Uploaded } from './uploaded.ts'

const SECRET = /password|passkey|secret|\bcode\b/i

/** One field of a form that waits to be sent again: what was typed. */
export interface KeptField {
  name: string
  value: string
}

/** The fields of what was posted, each value of one that came several times; files aren't among them. */
export function keptFields(body: unknown): KeptField[] {
  return Object.entries(fieldsIn(body)).flatMap(([name, value]) =>
    [value]
      .flat()
      .filter(one => typeof one === 'string')
      .map(one => ({ name, value: one })),
  )
}

/** A form that a fault of ours has stopped, to be sent again as it was typed; none with a secret in it. */
export interface Again {
  action: string
  kept: KeptField[]
  /** Whether files came with it, which have to be chosen anew. */
  hadFiles: boolean
}

/** What was posted, to be sent again; null where nothing was, or a secret is in it. */
export function againOf({ method, url, body }: FastifyRequest): Again | null {
  const kept = keptFields(body)
  if (method !== 'POST' || kept.length === 0 || kept.some(({ name }) => SECRET.test(name))) return null
  const hadFiles = body instanceof Uploaded && Object.keys(body.files).length > 0
  return { action: url, kept, hadFiles }
}
