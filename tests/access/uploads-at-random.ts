import { createHash } from 'node:crypto'
import { halves } from '../photos/pictures.ts'
import { oneOf, type Random } from './typed-at-random.ts'

const PICTURE = await halves('#336633', '#553311', 40, 30).jpeg().toBuffer()
const PNG = await halves('#336633', '#553311', 40, 30).png().toBuffer()
// The head of a zip whose list says more than there is.
const ZIP = Buffer.concat([Buffer.from('504b0506', 'hex'), Buffer.alloc(6, 255), Buffer.alloc(12, 1)])
const PDF = Buffer.from('%PDF-1.7\n1 0 obj\n<< /Type /Catalog >>\nendobj\ntrailer << /Root 1 0 R >>\n%%EOF\n')
/** Neither a picture nor a text; the same in every run, as a run can be repeated. */
const NOISE = createHash('shake256', { outputLength: 2_000 }).update('noise').digest()
const CSVS = [
  'Name,Phone,Street\nCarol Reyes,"(512) 555-0177","12 Fern Lane"\n',
  'name;phone;"street\nCarol',
  '=cmd|calc,@SUM(A1)\n"a""b",\r\n\r\n,,,,,\n',
  `${'a,'.repeat(300)}\n${'1,'.repeat(400)}\n`,
  '\ufeffNombre\tTeléfono\nJosé\t+52 55 1234 5678\n',
  'slug,name,lower,upper\ncompost,Compost,1e999,-1\n',
  '\u0000\u0000,\uffff\n',
]
const NAMES = [
  'rates.csv',
  'rates.zip',
  '../../etc/passwd',
  'bed.jpg',
  '',
  'x'.repeat(300),
  'a"b\r\nc.jpg',
  'ñ.csv',
]
const TYPES = ['image/jpeg', 'text/csv', 'application/zip', 'application/pdf', 'text/html', '', 'x/y; z="']

/** A file that somebody chooses: a picture, a table, a paper, or what is none; whole, cut off or with bytes changed. */
export function fileAtRandom(random: Random): File {
  const bytes = oneOf(random, [
    ...[PICTURE, PNG, ZIP, PDF, Buffer.alloc(0), NOISE, Buffer.alloc(60_000, 65)],
    ...CSVS.map(text => Buffer.from(text)),
    ...[Buffer.from('Nombre,Teléfono\n', 'latin1'), Buffer.from('a,b\n1,2\n', 'utf16le')],
  ])
  const whole = random() < 0.6 ? bytes : hurtAtRandom(bytes, random)
  return new File([new Uint8Array(whole)], oneOf(random, NAMES), { type: oneOf(random, TYPES) })
}

/** The same bytes cut off, or some of them changed, or doubled. */
export function hurtAtRandom(bytes: Buffer, random: Random): Buffer {
  const kind = random()
  const at = Math.floor(random() * bytes.length)
  if (kind < 0.4) return bytes.subarray(0, at)
  if (kind < 0.5) return Buffer.concat([bytes.subarray(0, at), bytes])
  const changed = Buffer.from(bytes)
  for (let count = 1 + Math.floor(random() * 8); count > 0 && changed.length > 0; count--)
    changed[Math.floor(random() * changed.length)] = Math.floor(random() * 256)
  return changed
}
