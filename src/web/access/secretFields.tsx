import type { Problem } from '../../problem.ts'
import { PASSWORD_MIN } from '../../uses/access/passwordRules.ts'
import { Field, type Typed } from '../form.tsx'

const NOTHING: Typed = new Map()

/** A password is never written into a page again, whatever else has to be put right. */
export const PasswordField = (props: {
  name: 'password' | 'again' | 'current' | 'proof'
  label: string
  hint?: string | undefined
  /** What a browser's own list of passwords makes of it (HTML Standard, 4.10.18.7). */
  autocomplete: 'current-password' | 'new-password'
  problems: readonly Problem[]
}) => <Field {...props} type="password" typed={NOTHING} required />

/** A password that is chosen: twice, because nobody sees what is typed. */
export const NewPassword = ({
  problems,
  label = 'Password',
}: {
  problems: readonly Problem[]
  label?: string
}) => (
  <>
    <PasswordField
      name="password"
      label={label}
      hint={`At least ${PASSWORD_MIN} characters. A few words are easiest to keep in mind.`}
      autocomplete="new-password"
      problems={problems}
    />
    <PasswordField name="again" label="The same once more" autocomplete="new-password" problems={problems} />
  </>
)

/** As it was sent, spaces and all. */
export const secretIn = (form: FormData, name: string): string => {
  const value = form.get(name)
  return typeof value === 'string' ? value : ''
}

/** Both fields alike, or what is wrong. */
export const againProblems = (form: FormData): readonly Problem[] =>
  secretIn(form, 'password') === secretIn(form, 'again')
    ? []
    : [{ code: 'not allowed', field: 'again', next: 'The two are not the same. Type both again.' }]
