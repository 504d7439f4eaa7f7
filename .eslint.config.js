import tseslint from 'typescript-eslint'

const bannedCalls = [
  { selector: "CallExpression[callee.name='parseFloat']", message: 'Use decimal() or Number().' },
  {
    selector: "CallExpression[callee.object.name='Number'][callee.property.name='parseFloat']",
    message: 'Use decimal() or Number().',
  },
]

const bannedOutsideMain = [
  {
    selector: "NewExpression[callee.name='Date'][arguments.length=0]",
    message: 'The clock is read in api/main.ts only; take `now` as an argument.',
  },
  {
    selector: "CallExpression[callee.object.name='Date'][callee.property.name='now']",
    message: 'The clock is read in api/main.ts only; take `now` as an argument.',
  },
  {
    selector: "CallExpression[callee.object.name='Math'][callee.property.name='random']",
    message: 'Chance comes from api/main.ts only; take `newId` as an argument.',
  },
]

const bannedEnvironment = [
  {
    selector: "MemberExpression[object.name='process'][property.name='env']",
    message: 'The environment is read in api/main.ts and api/config.ts only.',
  },
]

/** A rule's options replace those of an earlier block, so each block lists all that holds there. */
const banned = (...lists) => ({ 'no-restricted-syntax': ['error', ...lists.flat()] })

export default tseslint.config(
  { ignores: ['db/migrations/**', 'api/assets/**'] },
  {
    files: ['**/*.{ts,tsx}'],
    extends: [tseslint.configs.base],
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/await-thenable': 'error',
      eqeqeq: 'error',
      'no-empty': 'error',
      'max-lines': ['error', { max: 250, skipBlankLines: true, skipComments: true }],
      'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
      'max-params': ['error', 3],
      complexity: ['error', 12],
      ...banned(bannedCalls, bannedOutsideMain, bannedEnvironment),
    },
  },
  {
    files: ['api/main.ts', 'tests/**'],
    rules: banned(bannedCalls),
  },
  // On the phone there is no `Services`: what the time is there is asked of the phone, in one file.
  {
    files: ['api/browser/phone-clock.ts'],
    rules: banned(bannedCalls, bannedEnvironment),
  },
  {
    files: ['api/config.ts', 'db/drizzle.config.ts'],
    rules: banned(bannedCalls, bannedOutsideMain),
  },
  {
    files: ['tests/**'],
    rules: { 'max-lines-per-function': 'off' },
  },
)
