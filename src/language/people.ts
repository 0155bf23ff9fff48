export const en = {
  'people.joined': 'These two were joined meanwhile. Undo that first to keep them apart.',
  'people.no-beds': 'Request {number} has no beds yet. Set a visit, or add the beds first.',
  'people.beds-known': 'Request {number} has beds already.',
}

export const es: Record<keyof typeof en, string> = {
  'people.joined': 'Estos dos se unieron mientras tanto. Deshaga eso primero para mantenerlos separados.',
  'people.no-beds':
    'La solicitud {number} todavía no tiene jardineras. Fije una visita o agregue primero las jardineras.',
  'people.beds-known': 'La solicitud {number} ya tiene jardineras.',
}
