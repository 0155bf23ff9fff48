import { expect, test } from 'vitest'
import { asksToStop } from '../../src/letters/asks-to-stop.ts'

test.each([
  ...[
    'STOP',
    'Stop.',
    'stop please',
    'Please stop!',
    'quit',
    'END',
    'Unsubscribe',
    'Cancel',
    'revoke',
    'opt out',
  ],
  ...[
    'Stop texting me',
    'please quit sending me these',
    'Don’t text me anymore',
    'do not contact us',
    'No more texts!',
  ],
  ...['take me off your list', 'I want to opt out', 'leave me alone', 'lose my number', 'Enough'],
  ...['Please don’t send me any more offers', 'STOP ALL'],
  ...['Alto', '¡Basta!', 'Ya no', 'no más', 'Pare por favor', 'Cancelar'],
  ...[
    'No me envíen más mensajes',
    'dejen de escribirme',
    'Ya no quiero recibir mensajes',
    'no más ofertas',
    'quítenme de su lista',
  ],
])('%j asks to stop', text => {
  expect(asksToStop(text)).toBe(true)
})

test.each([
  ...[
    'Can you stop by on Friday?',
    'Don’t text me before 8, please',
    'The bus stop is in front of the house',
    'Yes, Tuesday is fine',
  ],
  ...[
    'At the end of the driveway',
    'Cancel the edging but do the mulch',
    'Please don’t send anyone on Monday',
    'I will text you when I’m home',
  ],
  ...[
    'Está en alto',
    '¿Para cuándo?',
    'No me envíen antes de las 8',
    'Sí, el martes',
    'Para el martes está bien',
    '',
  ],
])('%j doesn’t', text => {
  expect(asksToStop(text)).toBe(false)
})
