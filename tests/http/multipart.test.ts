import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Refusal } from '../../src/http/errors.ts'
import { splitParts } from '../../src/http/multipart.ts'

const ENOUGH = { parts: 20, text: 10_000 }

/** A form as Node writes it, which writes it as browsers do. */
async function written(fields: [name: string, value: string | File][]) {
  const form = new FormData()
  for (const [name, value] of fields) form.append(name, value)
  const answer = new Response(form)
  return {
    type: answer.headers.get('content-type')!,
    body: Buffer.from(await answer.arrayBuffer()),
  }
}

const FILE = new File([Buffer.from([0, 13, 10, 45, 45, 255])], 'bed "1".jpg', { type: 'image/jpeg' })

test('a form comes back as it was sent, files to the byte', async () => {
  const { type, body } = await written([
    ['name', 'Añá\r\n--line'],
    ['odd "name"', ''],
    ['photo', FILE],
  ])
  expect(splitParts(type, body, ENOUGH)).toEqual({
    cut: false,
    parts: [
      { name: 'name', text: 'Añá\r\n--line', file: null },
      { name: 'odd "name"', text: '', file: null },
      {
        name: 'photo',
        text: '',
        file: { bytes: Buffer.from([0, 13, 10, 45, 45, 255]), type: 'image/jpeg', name: 'bed "1".jpg' },
      },
    ],
  })
})

test('of a form that is cut, wherever that is, the parts that are whole are there', async () => {
  const { type, body } = await written([
    ['name', 'Carol'],
    ['note', 'by the porch'],
    ['photo', FILE],
  ])
  const whole = splitParts(type, body, ENOUGH).parts
  const first = body.indexOf('\r\n')
  for (let end = first + 2; end < body.length - 4; end++) {
    const { parts, cut } = splitParts(type, body.subarray(0, end), ENOUGH)
    expect([end, cut, parts]).toEqual([end, true, whole.slice(0, parts.length)])
  }
})

test('whatever is no such form is refused with 400, and too much of it with 413', async () => {
  const { type, body } = await written([
    ['a', '1'],
    ['b', '2'],
  ])
  const statusOf = (kind: string, bytes: Buffer, most = ENOUGH) => {
    try {
      splitParts(kind, bytes, most)
      return 'taken'
    } catch (error) {
      return error instanceof Refusal ? error.status : error
    }
  }
  expect(statusOf('multipart/form-data', body)).toBe(400)
  expect(statusOf('multipart/form-data; boundary=other', body)).toBe(400)
  expect(statusOf(type, Buffer.alloc(0))).toBe(400)
  const boundary = type.split('boundary=')[1]
  for (const part of [
    '',
    'content-disposition: form-data\r\n\r\nno name',
    'content-type: text/plain\r\n\r\n1',
  ])
    expect([part, statusOf(type, Buffer.from(`--${boundary}\r\n${part}\r\n--${boundary}--`))]).toEqual([
      part,
      400,
    ])
  expect(statusOf(type, body, { parts: 1, text: 100 })).toBe(413)
  expect(statusOf(type, body, { parts: 2, text: 1 })).toBe(413)
  expect(statusOf(type, body, { parts: 2, text: 2 })).toBe('taken')
})

test('no bytes bring it to anything but a form or a refusal', () => {
  const piece = fc.constantFrom(
    '--b',
    '\r\n',
    '--',
    'content-disposition: form-data; name="a"',
    '; filename=""',
    '\0',
    'x',
  )
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 30 }), pieces => {
      try {
        const { parts } = splitParts('multipart/form-data; boundary=b', Buffer.from(pieces.join('')), ENOUGH)
        return parts.every(({ name }) => name === 'a')
      } catch (error) {
        return error instanceof Refusal
      }
    }),
  )
})
