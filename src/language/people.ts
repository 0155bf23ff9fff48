export const en = {
  'people.erased': 'One of these was erased meanwhile, so they can’t be joined.',
  'people.joined': 'These two were joined meanwhile. Undo that first to keep them apart.',
}

export const es: Record<keyof typeof en, string> = {
  'people.erased': 'Uno de estos se borró mientras tanto, así que no se pueden unir.',
  'people.joined': 'Estos dos se unieron mientras tanto. Deshaga eso primero para mantenerlos separados.',
}
