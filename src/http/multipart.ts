import { Refusal } from './errors.ts'

/** One field of a form with files in it; `file` is null where it is a text. */
export interface Part {
  name: string
  text: string
  file: { bytes: Buffer; type: string; name: string } | null
}

export interface Parts {
  parts: Part[]
  /** Whether the body ended before the form did. The part that it ended in is left out. */
  cut: boolean
}

export interface PartLimits {
  parts: number
  /** Of all texts together, in bytes. */
  text: number
}

const CRLF = '\r\n'
const MOST_HEADERS = 2048
const FIELD = /^content-disposition:\s*form-data\b/i

/**
 * Splits the body of a form that was sent as multipart/form-data (RFC 7578), as browsers write it. Files aren't copied.
 * @throws {Refusal} 400 where it is none, 413 beyond the limits
 */
export function splitParts(type: string, body: Buffer, most: PartLimits): Parts {
  const [, quoted, bare] = /;\s*boundary=(?:"([^"]{1,70})"|([^\s;"]{1,70}))/i.exec(type) ?? []
  const boundary = quoted ?? bare
  if (!boundary) throw new Refusal(400, 'error.400')
  const between = Buffer.from(`${CRLF}--${boundary}`)
  const first = between.subarray(CRLF.length)
  if (!body.subarray(0, first.length).equals(first)) throw new Refusal(400, 'error.400')
  const parts: Part[] = []
  let texts = 0
  for (let at = first.length; ; ) {
    const after = body.toString('latin1', at, at + CRLF.length)
    if (after === '--') return { parts, cut: false }
    if (after.length < CRLF.length) return { parts, cut: true }
    if (after !== CRLF) throw new Refusal(400, 'error.400')
    const end = body.indexOf(between, at)
    if (end < 0) return { parts, cut: true }
    const part = readPart(body.subarray(at + CRLF.length, end))
    parts.push(part)
    texts += part.file ? 0 : part.text.length
    if (parts.length > most.parts || texts > most.text) throw new Refusal(413, 'error.413')
    at = end + between.length
  }
}

function readPart(part: Buffer): Part {
  const end = part.subarray(0, MOST_HEADERS).indexOf(CRLF + CRLF)
  if (end < 0) throw new Refusal(400, 'error.400')
  const headers = part.toString('utf8', 0, end).split(CRLF)
  const field = headers.find(header => FIELD.test(header))
  const name = field && parameterOf(field, 'name')
  if (name === undefined) throw new Refusal(400, 'error.400')
  const bytes = part.subarray(end + 2 * CRLF.length)
  const filename = parameterOf(field!, 'filename')
  if (filename === undefined) return { name, text: bytes.toString('utf8'), file: null }
  const type = headers.find(header => /^content-type:/i.test(header))?.slice('content-type:'.length) ?? ''
  return { name, text: '', file: { bytes, type: type.trim(), name: filename } }
}

// What a name can't hold is written as browsers do.
function parameterOf(header: string, key: string): string | undefined {
  const found = new RegExp(`;\\s*${key}="([^"]*)"`, 'i').exec(header)?.[1]
  return found?.replace(/%(22|0D|0A)/gi, (_all, code: string) =>
    String.fromCharCode(Number.parseInt(code, 16)),
  )
}
