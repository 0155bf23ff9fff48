export const en = {
  'account.sign-in': 'Sign in',
  'account.email': 'Mail address',
  'account.password': 'Password',
  'account.no-match': 'That address and password don’t belong together. Please type both again.',
  'account.wait':
    'Too many attempts failed. Please wait {seconds} seconds, then try again; nothing is locked.',
  'account.signed-out': 'You are signed out.',
  'account.not-set-up':
    'There is no account yet: the address at which the first one is made was printed when Bedwright started.',
  'account.set-up-done': 'Somebody else has just set this up. Please sign in with that account.',
  'account.password-short': 'A password needs {least} characters or more; a sentence of your own does well.',
  'account.password-long': 'A password may have {most} characters at most.',
  'account.password-common':
    'That is one of the first passwords that anybody would try. Please take words of your own.',
}

export const es: typeof en = {
  'account.sign-in': 'Entrar',
  'account.email': 'Correo electrónico',
  'account.password': 'Contraseña',
  'account.no-match': 'Ese correo y esa contraseña no coinciden. Escriba los dos otra vez.',
  'account.wait':
    'Fallaron demasiados intentos. Espere {seconds} segundos y pruebe otra vez; nada está bloqueado.',
  'account.signed-out': 'Ha salido.',
  'account.not-set-up':
    'Todavía no hay ninguna cuenta: la dirección para crear la primera se mostró al iniciar Bedwright.',
  'account.set-up-done': 'Otra persona acaba de configurar esto. Entre con esa cuenta.',
  'account.password-short': 'La contraseña necesita {least} caracteres o más; una frase propia sirve bien.',
  'account.password-long': 'La contraseña puede tener {most} caracteres como máximo.',
  'account.password-common':
    'Esa es una de las primeras contraseñas que cualquiera probaría. Use palabras propias.',
}
