export const en = {
  'turned-down.far': 'Your property is farther away than we can serve well.',
  'turned-down.full': 'We’re booked up for this season.',
  'turned-down.kind': 'It isn’t the kind of work we do.',
  'turned-down.subject': 'About your request {number}',
  'turned-down.mail': 'Thank you for asking us. We’re sorry, but we can’t do this work.',
  'turned-down.questions': 'If you have questions, please call us.',
  'turned-down.back-subject': 'We can do your request {number} after all',
  'turned-down.back':
    'We told you that we couldn’t do this work. Now we can. Your request is open again, and we’ll get back to you.',
}

export const es: Record<keyof typeof en, string> = {
  'turned-down.far': 'Su propiedad está más lejos de donde podemos atender bien.',
  'turned-down.full': 'Ya no nos queda lugar esta temporada.',
  'turned-down.kind': 'No es el tipo de trabajo que hacemos.',
  'turned-down.subject': 'Sobre su solicitud {number}',
  'turned-down.mail': 'Gracias por consultarnos. Lo sentimos, pero no podemos hacer este trabajo.',
  'turned-down.questions': 'Si tiene preguntas, llámenos.',
  'turned-down.back-subject': 'Sí podemos hacer su solicitud {number}',
  'turned-down.back':
    'Le dijimos que no podíamos hacer este trabajo. Ahora sí podemos. Su solicitud está abierta otra vez y nos comunicaremos con usted.',
}
