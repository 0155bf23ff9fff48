import type { Key } from '../language/catalogue.ts'

/** Of a message, each sentence that may be changed with its label. */
export type Sentences = [name: string, heading: string, sentences: [key: Key, label: string][]]

/** Of work that is moved, and of times for the visit. */
export const WORDS_OF_MOVES: Sentences[] = [
  [
    'moved',
    'A work day is moved',
    [
      ['moves.subject', 'Subject'],
      ['moves.mail', 'Email'],
      ['text.day-moved', 'Text'],
    ],
  ],
  [
    'rain',
    'A work day is moved because of rain',
    [
      ['moves.rain-subject', 'Subject'],
      ['moves.rain', 'Email'],
      ['text.rain-moved', 'Text'],
    ],
  ],
  [
    'visit-times',
    'Times to pick from',
    [
      ['visits.times-subject', 'Subject'],
      ['visits.times', 'Email'],
      ['text.visit-times', 'Text'],
    ],
  ],
]
