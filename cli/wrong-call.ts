/** The person called it wrongly, or the file cannot be read: told in one message, exit code 2. */
export class WrongCall extends Error {}
