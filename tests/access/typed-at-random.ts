import { createHash } from 'node:crypto'
import type { Form } from './forms.ts'

/** Gives numbers from 0 up to 1, always the same ones from a seed. */
export type Random = () => number

export function randomFrom(seed: number): Random {
  let count = 0
  return () => createHash('sha256').update(`${seed} ${count++}`).digest().readUInt32BE() / 2 ** 32
}

export function oneOf<One>(random: Random, list: readonly One[]): One {
  return list[Math.floor(random() * list.length)]!
}

/** What may be typed, as it stands in a form that is sent: percent and plus are what they mean there. */
export const NASTY = [
  ...[
    '',
    '+',
    '0',
    '-1',
    '1e999',
    '1e-999',
    'NaN',
    'Infinity',
    '99999999999999999999',
    '0x10',
    '1%2C5',
    '%C2%BD',
  ],
  ...[
    '%00',
    '%ED%A0%80',
    '%FF%FE',
    '%E2%80%AE',
    '%F0%9F%8C%BF',
    '%0D%0ASet-Cookie%3A+a%3Db',
    '%25',
    '%2e%2e%2f%2e%2e%2fetc',
  ],
  ...['2026-02-30', '9999-12-31', '0000-00-00', '2026-03-08T02%3A30', 'tomorrow', '99%3A99'],
  ...['true', 'null', 'undefined', '__proto__', 'constructor', '%5Bobject+Object%5D', '%7B%22a%22%3A1%7D'],
  ...[
    "'%3B+drop+table+account+--",
    '%3Cscript%3Ealert(1)%3C%2Fscript%3E',
    '%3D1%2B1',
    '%3C%25%3D+it+%25%3E',
    '$%7B1%7D',
  ],
  ...[
    '%7B%22id%22%3A%22AAAA%22%2C%22rawId%22%3A%22AAAA%22%2C%22type%22%3A%22public-key%22%2C%22response%22%3A%7B%22clientDataJSON%22%3A%22e30%22%7D%7D',
    '%5B%5D',
    '%7B%22response%22%3Anull%7D',
  ],
  ...['12%27+6%22', '20+x+30+in', '3+to', 'x'.repeat(5000), '9'.repeat(400), '%F0%9D%9F%99'],
]

/** What a form sends as it stands, with some of it changed, left out, doubled or added, as a body of a form. */
export function changedAtRandom({ controls, buttons }: Form, random: Random): string {
  const button = buttons.length > 0 ? [oneOf(random, buttons)] : []
  const sent = [...controls.filter(({ isSent }) => isSent), ...button]
    .filter(({ name }) => name !== '')
    .map(({ name, value }) => [encodeURIComponent(name), encodeURIComponent(value)] as [string, string])
  const names = [...sent.map(([name]) => name), ...controls.map(({ name }) => encodeURIComponent(name))]
  for (let changes = 1 + Math.floor(random() * 4); changes > 0; changes--) {
    const at = Math.floor(random() * sent.length)
    const name = names.length > 0 ? oneOf(random, names) : 'a'
    const value = oneOf(random, NASTY)
    const kind = random()
    if (kind < 0.6) {
      const there = sent.find(([one]) => one === name)
      if (there) there[1] = value
      else sent.push([name, value])
    } else if (kind < 0.75) sent.splice(at, 1)
    else if (kind < 0.9) sent.push([name, value])
    else
      sent.push([
        oneOf(random, [`${name}.0`, `${name}[]`, `${name}.__proto__`, '__proto__.x', `${name}.99999999`]),
        value,
      ])
  }
  return sent.map(pair => pair.join('=')).join('&')
}
