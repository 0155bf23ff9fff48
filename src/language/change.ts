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
  'change.none':
    'Nothing differs from what they accepted, so there’s nothing to send. Change something first.',
  'change.accepted': 'The customer already accepted the change to {number}, so it can’t be taken back.',
  'change.declined':
    'You already chose to leave your job as it was. If you’ve changed your mind, please call us.',
  'change.withdrawn': 'We took this change back. We’ll do the work as you accepted it before.',
  'change.withdrawn-subject': 'We took back the change to {number}',
  'change.withdrawn-mail':
    'We took back the change to your job {number}. We’ll do the work as you accepted it before. You don’t need to do anything.',
  'change.withdrawn-brief':
    'We took back the change to {number}. We’ll do the work as you accepted it before.',
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
  'change.none':
    'No hay ninguna diferencia con lo que se aceptó, así que no hay nada que enviar. Primero cambie algo.',
  'change.accepted': 'El cliente ya aceptó el cambio de {number}, así que ya no se puede retirar.',
  'change.declined': 'Ya eligió dejar su trabajo como estaba. Si cambió de opinión, llámenos, por favor.',
  'change.withdrawn': 'Retiramos este cambio. Haremos el trabajo como usted lo aceptó antes.',
  'change.withdrawn-subject': 'Retiramos el cambio de {number}',
  'change.withdrawn-mail':
    'Retiramos el cambio de su trabajo {number}. Lo haremos como usted lo aceptó antes. No tiene que hacer nada.',
  'change.withdrawn-brief': 'Retiramos el cambio de {number}. Haremos el trabajo como usted lo aceptó antes.',
  'change.brief': 'Un cambio en su trabajo {number}: nuevo total {total}. Nada cambia hasta que lo acepte.',
}
