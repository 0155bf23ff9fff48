import { promisify } from 'node:util'
import { brotliCompress, constants, gzip } from 'node:zlib'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'

/** Less than this isn't worth it, in bytes. */
const LEAST = 2048
const COMPRESSIBLE = /^text\/|json|svg/
// Not where it is said that it is the last thing wanted: q=0.
const TAKES = {
  br: /\bbr\b(?!\s*;\s*q=0(?:\.0*)?(?![.\d]))/,
  gzip: /\bgzip\b(?!\s*;\s*q=0(?:\.0*)?(?![.\d]))/,
}

/** The same bytes as they are and compressed, for what is sent again and again. */
export interface Encoded {
  plain: Buffer
  br: Buffer
  gzip: Buffer
}

export async function encoded(plain: Buffer): Promise<Encoded> {
  const [br, gz] = await Promise.all([
    promisify(brotliCompress)(plain, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } }),
    promisify(gzip)(plain),
  ])
  return { plain, br, gzip: gz }
}

/** Sends them in the best way that the request takes. `vary` names all that the answer hangs on. */
export function sendEncoded(
  request: FastifyRequest,
  reply: FastifyReply,
  bytes: Encoded,
  vary = 'accept-encoding',
): FastifyReply {
  const encoding = takes(request, 'br') ? 'br' : takes(request, 'gzip') ? 'gzip' : null
  if (encoding) reply.header('content-encoding', encoding)
  return reply.header('vary', vary).send(encoding ? bytes[encoding] : bytes.plain)
}

/** Compresses what is made for one answer, where the request takes that and it is text. */
export function compressAnswers(app: FastifyInstance): void {
  app.addHook('onSend', (request, reply, payload, done) => {
    const isWhole = typeof payload === 'string' || Buffer.isBuffer(payload)
    if (!isWhole || payload.length < LEAST || reply.hasHeader('content-encoding')) return done()
    if (!COMPRESSIBLE.test(String(reply.getHeader('content-type')))) return done()
    if (!reply.hasHeader('vary')) reply.header('vary', 'accept-encoding')
    if (!takes(request, 'gzip')) return done()
    reply.header('content-encoding', 'gzip').removeHeader('content-length')
    gzip(payload, done)
  })
}

function takes(request: FastifyRequest, encoding: keyof typeof TAKES): boolean {
  const accepted = request.headers['accept-encoding']
  return accepted !== undefined && TAKES[encoding].test(String(accepted))
}
