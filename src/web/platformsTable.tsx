import { letterAt } from '../words/reach.ts'

/** Heads of a table of platforms. */
export const Heads = ({ first, rest }: { first: string; rest: readonly string[] }) => (
  <thead>
    <tr>
      <th scope="col">{first}</th>
      {rest.map((head) => (
        <th scope="col">{head}</th>
      ))}
    </tr>
  </thead>
)

/** A platform by its letter of the picture and its name. */
export const Named = ({ at, name }: { at: number; name: string }) => (
  <>
    <b>{letterAt(at)}</b> {name !== letterAt(at) && name}
  </>
)
