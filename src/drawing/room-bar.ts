import { num, svg } from './svg.ts'

const WIDTH = 288
const HEIGHT = 16

export interface RoomDrawing {
  /** Labor hours already promised away, and the labor hours that the day has. */
  taken: number
  room: number
  /** The same in words. */
  title: string
  /** Unique on its page. */
  id: string
}

/** A work day as a ruler of its labor hours: what is taken is hatched, what is free is blank, too much is marked. */
export function drawRoom({ taken, room, title, id }: RoomDrawing): string {
  const whole = Math.max(taken, room, 1)
  const at = (hours: number) => 1 + (Math.max(hours, 0) / whole) * (WIDTH - 2)
  const hours: string[] = []
  for (let hour = 1; hour < room && room <= 48; hour += 1) hours.push(`M${num(at(hour))} ${HEIGHT - 4}v3`)
  const body = [
    `<defs><pattern id="${id}-taken" patternUnits="userSpaceOnUse" width="6" height="6"><path class="wall-hatch" d="M-1 1L1 -1M0 6L6 0M5 7L7 5"/></pattern></defs>`,
    `<rect x="1" y="1" width="${num(at(Math.min(taken, room)) - 1)}" height="${HEIGHT - 2}" fill="url(#${id}-taken)"/>`,
    `<rect class="room-edge" x="1" y="1" width="${num(at(room) - 1)}" height="${HEIGHT - 2}"/>`,
    hours.length ? `<path class="room-hours" d="${hours.join('')}"/>` : '',
    taken > 0 && taken < room ? `<path class="room-taken" d="M${num(at(taken))} 1V${HEIGHT - 1}"/>` : '',
    taken > room
      ? `<rect class="room-over" x="${num(at(room))}" y="1" width="${num(at(taken) - at(room))}" height="${HEIGHT - 2}"/>`
      : '',
  ]
  return svg({ id, title, width: WIDTH, height: HEIGHT, classes: 'drawing room-bar', body: body.join('') })
}
