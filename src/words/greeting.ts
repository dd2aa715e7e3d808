import { fill, oneLine } from './say.ts'

/** A greeting with and without a name. Which of the two names it takes is a matter of the language. */
type Greetings = { readonly plain: string; readonly named: string }

/** By the first name or, where one says "Sie", by the whole; a name that is none gets a plain hello. */
export function greetingFor(name: string | undefined, { plain, named }: Greetings): string {
  const fullName = oneLine(name ?? '')
  const [first = ''] = fullName.split(' ')
  return first === '' ? plain : fill(named, { name: first, fullName })
}
