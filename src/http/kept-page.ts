import { createHash } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Language } from '../language/language.ts'
import { PAGE_VARIES } from './caching.ts'
import { type Encoded, encoded, sendEncoded } from './encoded.ts'
import { hasFlash } from './flash.ts'
import { languageOf } from './language.ts'

interface Bytes extends Encoded {
  etag: string
}

/** A page that is the same for everyone of a language, kept as bytes for as long as what it is made from is. */
export class KeptPage {
  readonly #of = new WeakMap<object, Map<Language, Promise<Bytes>>>()

  /** Sends the page made from `from`; `make` gives its markup where it isn't kept yet, of nothing that was sent. */
  async send(
    request: FastifyRequest,
    reply: FastifyReply,
    from: object,
    make: () => Promise<string>,
  ): Promise<FastifyReply> {
    const bytes = await this.#keep(from, languageOf(request), make)
    reply.header('etag', bytes.etag)
    if (isKnown(request, bytes.etag)) return reply.code(304).send()
    return sendEncoded(request, reply.type('text/html; charset=utf-8'), bytes, PAGE_VARIES)
  }

  #keep(from: object, language: Language, make: () => Promise<string>): Promise<Bytes> {
    const pages = this.#of.get(from) ?? new Map<Language, Promise<Bytes>>()
    this.#of.set(from, pages)
    const kept = pages.get(language)
    if (kept) return kept
    const made = make().then(bytesOf)
    pages.set(language, made)
    made.catch(() => pages.delete(language))
    return made
  }
}

/** Whether an answer to this request holds nothing that is this visitor's own, but for the language. */
export function isForEveryone(request: FastifyRequest): boolean {
  // By the query as it was read: the router takes what follows a number sign for one too.
  return request.account === null && Object.keys(request.query as object).length === 0 && !hasFlash(request)
}

async function bytesOf(markup: string): Promise<Bytes> {
  const plain = Buffer.from(markup)
  // Weak, as it stands for the compressed forms too.
  const etag = `W/"${createHash('sha256').update(plain).digest('base64url').slice(0, 22)}"`
  return { etag, ...(await encoded(plain)) }
}

function isKnown(request: FastifyRequest, etag: string): boolean {
  const known = request.headers['if-none-match']
  return known?.split(',').some(one => one.trim() === etag) ?? false
}
