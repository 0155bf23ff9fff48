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
  'account.email-taken': 'Somebody signs in with that mail address already.',
  'account.own-page': 'Your password and sessions',
  'account.change-password': 'Change the password',
  'account.current': 'Password until now',
  'account.current-wrong': 'That is not the password until now.',
  'account.fresh': 'New password',
  'account.fresh-hint': '15 characters or more. Changing it signs you out everywhere else.',
  'account.password-changed': 'The password is changed, and every other session has ended.',
  'account.reset': 'Choose a new password',
  'account.reset-for': 'For the account of {email}. This works once, and ends every session of the account.',
  'account.reset-done': 'The password is changed. Please sign in with it.',
  'account.reset-over':
    'This link was used already or has run out. If you have just chosen a new password, please sign in with it.',
  'account.reset-hint': '15 characters or more; a sentence of your own does well.',
  'account.sessions': 'Where you are signed in',
  'account.session-since': 'Signed in {made}',
  'account.session-here': 'This browser',
  'account.session-seen': 'last used {seen}',
  'account.end-others': 'End the others',
  'account.others-ended': 'Other sessions ended: {count}.',
  'account.password-short': 'A password needs {least} characters or more; a sentence of your own does well.',
  'account.password-long': 'A password may have {most} characters at most.',
  'account.password-common':
    'That is one of the first passwords that anybody would try. Please take words of your own.',
}

export const es: Record<keyof typeof en, string> = {
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
  'account.email-taken': 'Alguien ya entra con ese correo.',
  'account.own-page': 'Su contraseña y sus sesiones',
  'account.change-password': 'Cambiar la contraseña',
  'account.current': 'Contraseña hasta ahora',
  'account.current-wrong': 'Esa no es la contraseña hasta ahora.',
  'account.fresh': 'Contraseña nueva',
  'account.fresh-hint': '15 caracteres o más. Al cambiarla se cierran sus otras sesiones.',
  'account.password-changed': 'La contraseña ha cambiado y las otras sesiones se cerraron.',
  'account.reset': 'Elegir una contraseña nueva',
  'account.reset-for':
    'Para la cuenta de {email}. Sirve una sola vez y cierra todas las sesiones de la cuenta.',
  'account.reset-done': 'La contraseña ha cambiado. Entre con ella.',
  'account.reset-over':
    'Este enlace ya se usó o ha caducado. Si acaba de elegir una contraseña nueva, entre con ella.',
  'account.reset-hint': '15 caracteres o más; una frase propia sirve bien.',
  'account.sessions': 'Dónde ha entrado',
  'account.session-since': 'Entró {made}',
  'account.session-here': 'Este navegador',
  'account.session-seen': 'usada por última vez {seen}',
  'account.end-others': 'Cerrar las otras',
  'account.others-ended': 'Otras sesiones cerradas: {count}.',
  'account.password-short': 'La contraseña necesita {least} caracteres o más; una frase propia sirve bien.',
  'account.password-long': 'La contraseña puede tener {most} caracteres como máximo.',
  'account.password-common':
    'Esa es una de las primeras contraseñas que cualquiera probaría. Use palabras propias.',
}
