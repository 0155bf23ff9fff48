import type { ServerResponse } from 'node:http'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Space } from '../limits/space.ts'
import { Refusal } from './errors.ts'
import { splitParts } from './multipart.ts'
import { Uploaded } from './uploaded.ts'

const MOST_PARTS = 1500
const MOST_TEXT = 256 * 1024

/**
 * Lets the routes of this scope take forms with a file (multipart/form-data), of `limit` bytes in all; more is refused
 * with 413, and what can't be read with 400. All of it is held in memory.
 */
export function takeUploads(scope: FastifyInstance, limit: number): void {
  scope.addContentTypeParser(
    'multipart/form-data',
    { parseAs: 'buffer', bodyLimit: limit },
    async (request: FastifyRequest, body: Buffer): Promise<Uploaded> => {
      const uploaded = uploadedIn(request, body)
      if (uploaded.cut) throw new Refusal(400, 'error.400')
      return uploaded
    },
  )
}

/** How much of a form that anybody may send is kept, and how much is listened to, in bytes. */
export interface StrangersLimits {
  kept: number
  most: number
  /** What is always kept, for the texts. */
  least: number
}

/**
 * The same for forms that anybody may send, with the files behind everything else: of one that is too large, or for
 * which there is no room at present, the end is left out, and what came before it is there, so that nothing that was
 * typed is lost.
 */
export function takeStrangersUploads(scope: FastifyInstance, space: Space, limits: StrangersLimits): void {
  const answers = new WeakMap<FastifyRequest, ServerResponse>()
  scope.addHook('onRequest', (request, reply, done) => {
    answers.set(request, reply.raw)
    done()
  })
  scope.addContentTypeParser(
    'multipart/form-data',
    async (request: FastifyRequest, payload: AsyncIterable<Buffer>): Promise<Uploaded> => {
      const told = Number(request.headers['content-length'] ?? limits.kept)
      if (told > limits.most) throw new Refusal(413, 'error.413')
      const wanted = Math.min(told, limits.kept)
      const given = holdSpace(space, wanted, request.ip, answers.get(request)!)
      const { body, whole } = await readStart(payload, Math.max(given, limits.least), limits.most)
      const uploaded = uploadedIn(request, body)
      if (uploaded.cut && whole) throw new Refusal(400, 'error.400')
      if (uploaded.cut && given < wanted) uploaded.cut = 'no room'
      return uploaded
    },
  )
}

/** Takes room for so many bytes until the answer has gone out, or its connection is lost; gives how much there was. */
export function holdSpace(space: Space, wanted: number, address: string, answer: ServerResponse): number {
  const given = space.take(wanted, address)
  if (given > 0) answer.once('close', () => space.giveBack(given, address))
  return given
}

/** The first `kept` bytes of what is sent; the rest is listened to and dropped. */
async function readStart(payload: AsyncIterable<Buffer>, kept: number, most: number) {
  const chunks: Buffer[] = []
  let length = 0
  for await (const chunk of payload) {
    if (length < kept) chunks.push(chunk.subarray(0, kept - length))
    length += chunk.length
    if (length > most) throw new Refusal(413, 'error.413')
  }
  return { body: Buffer.concat(chunks), whole: length <= kept }
}

function uploadedIn(request: FastifyRequest, body: Buffer): Uploaded {
  const limits = { parts: MOST_PARTS, text: MOST_TEXT }
  const { parts, cut } = splitParts(request.headers['content-type'] ?? '', body, limits)
  const uploaded = new Uploaded()
  for (const { name, text, file } of parts)
    if (!file) uploaded.fields[name] = text
    else if (file.bytes.length > 0)
      uploaded.files[name] = new File([new Uint8Array(file.bytes)], file.name, { type: file.type })
  if (cut) uploaded.cut = 'too much'
  return uploaded
}
