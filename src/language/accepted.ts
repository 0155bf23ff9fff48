export const en = {
  'accepted.title': 'What you accepted',
  'accepted.quote': 'Quote {revision}',
  'accepted.by': 'Accepted by {name}, {when}',
  'accepted.digest': 'SHA-256 of the text',
  'accepted.as-text': 'The text by itself, to save',
  'accepted.word-for-word': 'What you accept, word for word',
  'accepted.see': 'See what you accepted',
  'accepted.back': 'Back',
  'accepted.changed': 'Something here changed while you read. Please look again before you accept.',
}

export const es: Record<keyof typeof en, string> = {
  'accepted.title': 'Lo que aceptó',
  'accepted.quote': 'Presupuesto {revision}',
  'accepted.by': 'Aceptado por {name}, {when}',
  'accepted.digest': 'SHA-256 del texto',
  'accepted.as-text': 'Solo el texto, para guardarlo',
  'accepted.word-for-word': 'Lo que acepta, palabra por palabra',
  'accepted.see': 'Ver lo que aceptó',
  'accepted.back': 'Volver',
  'accepted.changed': 'Algo cambió aquí mientras leía. Mírelo otra vez antes de aceptar, por favor.',
}
