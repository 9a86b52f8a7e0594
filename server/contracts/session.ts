import { z } from 'zod';
import { rights, roles } from './rights.ts';
import { Id, Named } from './wire.ts';

export const SignIn = z
  .strictObject({
    personId: Id,
    pin: z.string().regex(/^\d{4,12}$/, 'must be 4 to 12 digits'),
    terminalId: Id.optional(),
  })
  .meta({ id: 'SignIn', examples: [{ personId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b', pin: '2468' }] });
export type SignIn = z.infer<typeof SignIn>;

export const Session = z
  .strictObject({
    person: Named.extend({ initials: z.string() }),
    roles: z.array(z.enum(roles)),
    rights: z.array(z.enum(rights)),
    /** Where somebody is signed in, and after how many minutes without a touch they are tapped out; null: never. */
    terminal: Named.extend({ idleMinutes: z.int().nullable() }).nullable(),
    shop: z.strictObject({
      name: z.string(),
      zone: z.string(),
      locale: z.string(),
      currency: z.string(),
      figuresInvented: z.boolean(),
    }),
  })
  .meta({ id: 'Session', description: 'Who is signed in here, and what they may do' });
export type Session = z.infer<typeof Session>;

export const BadgeSignIn = z
  .strictObject({
    /** As the badge was scanned. */
    code: z.string().min(1).max(60),
    /** Asked for unless the shop lets a badge open alone. */
    pin: z
      .string()
      .regex(/^\d{4,12}$/, 'must be 4 to 12 digits')
      .optional(),
    terminalId: Id.optional(),
  })
  .meta({ id: 'BadgeSignIn', examples: [{ code: 'XHHQ7000000000000000000', pin: '2468' }] });
export type BadgeSignIn = z.infer<typeof BadgeSignIn>;

/** Signed in; or whose PIN is wanted first. */
export const BadgeAnswer = z
  .strictObject({ session: Session.nullable(), pinOf: Named.extend({ initials: z.string() }).nullable() })
  .meta({ id: 'BadgeAnswer' });
export type BadgeAnswer = z.infer<typeof BadgeAnswer>;

/** Whom a terminal offers to sign in: names only. */
export const SignInChoices = z
  .strictObject({
    shop: z.string(),
    people: z.array(Named.extend({ initials: z.string(), roles: z.array(z.enum(roles)) })),
    terminals: z.array(Named),
  })
  .meta({ id: 'SignInChoices' });
export type SignInChoices = z.infer<typeof SignInChoices>;
