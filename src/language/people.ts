export const en = {
  'people.joined': 'These two were joined meanwhile. Undo that first to keep them apart.',
}

export const es: Record<keyof typeof en, string> = {
  'people.joined': 'Estos dos se unieron mientras tanto. Deshaga eso primero para mantenerlos separados.',
}
