/** What the passwords that are tried first are put together of, in small letters; digits count for nothing anyway. */
export const COMMON_PIECES = `
  password passwort contrasena contraseña passw pass word secret secreto geheim changeme change letmein let me in
  welcome bienvenido hello hola admin administrator root user guest login signin test testing default master owner
  qwertyuiop qwerty qwertz azerty asdfghjkl asdfgh asdf zxcvbnm zxcvb zxcv qazwsx qaz wsx edc poiuy lkjhg mnbvc
  iloveyou iloveu teamo love loveyou forever always princess sunshine dragon monkey football baseball basketball
  soccer hockey shadow freedom whatever trustno trust michael
  jennifer jessica ashley daniel charlie thomas andrew robert matthew joshua george nicole michelle summer winter
  spring autumn january february march april june july august september october november december monday tuesday
  wednesday thursday friday saturday sunday computer internet company business office garden gardens
  gardening landscape landscaping mulch bedwright quote quotes abc abcd xyz correcthorsebatterystaple correct horse
  battery staple one two three four five six seven eight nine ten the and my is this very long safe strong secure
  access enter open please money blink killer flower flowers cookie cheese chocolate banana orange purple yellow
  hunter ranger pepper ginger buster lovely angel angels family friends blessed amigo amor estrella
`
  .trim()
  .split(/\s+/)
