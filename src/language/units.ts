export const en = {
  'units.ft': '{n} feet',
  'units.ft2': '{n} square feet',
  'units.ft3': '{n} cubic feet',
  'units.yd3': '{n} cubic yards',
  'units.bed': 'beds: {n}',
  'units.m': '{n} m',
  'units.m2': '{n} m²',
  'units.m3': '{n} m³',
}

export const es: Record<keyof typeof en, string> = {
  'units.ft': '{n} pies',
  'units.ft2': '{n} pies cuadrados',
  'units.ft3': '{n} pies cúbicos',
  'units.yd3': '{n} yardas cúbicas',
  'units.bed': 'jardineras: {n}',
  'units.m': '{n} m',
  'units.m2': '{n} m²',
  'units.m3': '{n} m³',
}
