export const en = {
  'sorry.far': 'Your property is farther away than we can serve well.',
  'sorry.full': 'We’re booked up for this season.',
  'sorry.kind': 'It isn’t the kind of work we do.',
  'sorry.subject': 'About your request {number}',
  'sorry.mail': 'Thank you for asking us. We’re sorry, but we can’t do this work.',
  'sorry.questions': 'If you have questions, please call us.',
  'sorry.back-subject': 'We can do your request {number} after all',
  'sorry.back':
    'We said that we couldn’t do this work. Now we can. Your request is open again, and we’ll get back to you.',
}

export const es: Record<keyof typeof en, string> = {
  'sorry.far': 'Su propiedad está más lejos de donde podemos atender bien.',
  'sorry.full': 'Ya tenemos toda la temporada ocupada.',
  'sorry.kind': 'No es el tipo de trabajo que hacemos.',
  'sorry.subject': 'Sobre su solicitud {number}',
  'sorry.mail': 'Gracias por consultarnos. Lo sentimos, pero no podemos hacer este trabajo.',
  'sorry.questions': 'Si tiene preguntas, llámenos.',
  'sorry.back-subject': 'Sí podemos hacer su solicitud {number}',
  'sorry.back':
    'Le dijimos que no podíamos hacer este trabajo. Ahora sí podemos. Su solicitud está abierta otra vez y nos comunicaremos con usted.',
}
