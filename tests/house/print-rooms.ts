import { printRooms } from './rooms.ts'

console.log(printRooms())
