export const en = {
  'change.title': 'A change to your job',
  'change.lead':
    'You accepted {before}. Something has changed, and it only counts once you accept it. Until then we go by what you accepted.',
  'change.table': 'What changes',
  'change.from-to': 'Before: {before}. Now: {now}.',
  'change.nothing': 'nothing',
  'change.by': 'Change',
  'change.accept': 'Accept the change',
  'change.decline': 'Leave it as it was',
  'change.said': 'Accepted. We’ll do it this way.',
  'change.mail-subject': 'A change to your job {number}',
  'change.mail':
    'Something about your job has changed. Please read the change and accept it, or leave it as it was.',
  'change.hand-over':
    'Hello {name}, something about your job has changed. The new total is {total}. Please read it, and accept it by {until}: {link}\n{business}',
  'change.hand-over-unnamed':
    'Hello, something about your job has changed. The new total is {total}. Please read it, and accept it by {until}: {link}\n{business}',
  'change.brief': 'A change to your job {number}: new total {total}. Nothing changes until you accept it.',
}

export const es: Record<keyof typeof en, string> = {
  'change.title': 'Un cambio en su trabajo',
  'change.lead':
    'Usted aceptó {before}. Algo cambió, y solo vale cuando usted lo acepte. Hasta entonces seguimos con lo que aceptó.',
  'change.table': 'Lo que cambia',
  'change.from-to': 'Antes: {before}. Ahora: {now}.',
  'change.nothing': 'nada',
  'change.by': 'Cambio',
  'change.accept': 'Aceptar el cambio',
  'change.decline': 'Dejarlo como estaba',
  'change.said': 'Aceptado. Lo haremos así.',
  'change.mail-subject': 'Un cambio en su trabajo {number}',
  'change.mail': 'Algo cambió en su trabajo. Lea el cambio y acéptelo, o déjelo como estaba, por favor.',
  'change.hand-over':
    'Hola, {name}: algo cambió en su trabajo. El nuevo total es {total}. Léalo y acéptelo a más tardar el {until}: {link}\n{business}',
  'change.hand-over-unnamed':
    'Hola: algo cambió en su trabajo. El nuevo total es {total}. Léalo y acéptelo a más tardar el {until}: {link}\n{business}',
  'change.brief': 'Un cambio en su trabajo {number}: nuevo total {total}. Nada cambia hasta que lo acepte.',
}
