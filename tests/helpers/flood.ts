/** A flood as programs send one: half near copies, half random words and links, the same in every run. */
export const FLOOD_SECONDS = 600
export const FLOOD_START = Temporal.Instant.from('2026-03-02T15:00:00Z')
const ADDRESSES = 500
/** How many texts are copied. */
export const COPIED = [
  'We offer the best prices for leads in your town, answer today and get the first hundred of them free',
  'Hello dear owner, your web page could be found by many more people, our team helps you for little money',
]
const WORDS =
  'casino purple ladder winter discount ocean finance vitamin table rocket loan marble silver credit boots pill crypto lottery yacht fabric'.split(
    ' ',
  )

/** Two homeowners who write in the midst of it, the second from the neighborhood of some of the flood. */
export const REAL = {
  half: {
    at: 0.5,
    address: '203.0.113.9',
    name: 'Rosa Delgado',
    street: '7 Cedar Court',
    note: 'Dos jardineras junto al portón, el perro es manso. Llame después de las cuatro, por favor.',
  },
  later: {
    at: 0.9,
    address: '198.18.3.200',
    name: 'Sam Whitaker',
    street: '31 Oak Hill',
    note: 'ALL THREE BEDS BY THE PORCH 🌷 photo: https://photos.example.com/a/Xq3j',
  },
}

export interface FloodRequest {
  at: Temporal.Instant
  address: string
  fields: { name: string; street: string; email: string; note: string }
  /** How long the form was had, which each program lets pass. */
  seconds: number
}

/** So many requests over ten minutes from 500 addresses; random words are letters drawn by lot, or real words thrown together. */
export function* flood(count: number, random: 'letters' | 'words' = 'letters'): Generator<FloodRequest> {
  let seed = 42
  // A linear congruential generator.
  const draw = (most: number) => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648
    return Math.floor((seed / 2_147_483_648) * most)
  }
  const letters = () => Array.from({ length: 4 + draw(7) }, () => String.fromCharCode(97 + draw(26))).join('')
  const word = random === 'letters' ? letters : () => WORDS[draw(WORDS.length)]!
  const words = (many: number) => Array.from({ length: many }, word).join(' ')
  for (let nth = 0; nth < count; nth++) {
    const from = nth % ADDRESSES
    const copied = `${letters()} ${COPIED[(nth >> 1) % COPIED.length]}`
    const note = nth % 2 === 0 ? copied : `${words(12)} https://${letters()}.example/${letters()}`
    const fields = {
      name: words(2),
      street: `${draw(900)} ${word()}`,
      email: `${letters()}@mail.example`,
      note,
    }
    const at = FLOOD_START.add({ milliseconds: Math.floor((nth * FLOOD_SECONDS * 1000) / count) })
    yield { at, address: `198.18.${from % 25}.${10 + Math.floor(from / 25)}`, fields, seconds: 8 + draw(300) }
  }
}
