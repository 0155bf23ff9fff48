/** Jobs of several stops: the price and the beds of each. */
export const en = {
  'stops.bed': '1 bed',
  'stops.beds': '{count} beds',
  'stops.count': '{count} stops',
  'stops.table': 'The price, stop by stop',
  'stops.rules': 'Rules',
  'stops.whole': 'For the whole job',
  'stops.all': 'The same by material',
}

export const es: Record<keyof typeof en, string> = {
  'stops.bed': '1 jardinera',
  'stops.beds': '{count} jardineras',
  'stops.count': '{count} zonas',
  'stops.table': 'El precio, zona por zona',
  'stops.rules': 'Reglas',
  'stops.whole': 'Para todo el trabajo',
  'stops.all': 'Lo mismo por material',
}
