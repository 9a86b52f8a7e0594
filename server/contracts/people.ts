import { z } from 'zod';
import { roles } from './rights.ts';
import { Id, Instant, someWords } from './wire.ts';

const Initials = z.string().regex(/^\S{1,4}$/u, 'must be one to four letters without spaces');
const Roles = z.array(z.enum(roles)).min(1, 'must name at least one').max(roles.length);
export const Pin = z.string().regex(/^\d{4,12}$/, 'must be 4 to 12 digits');

/** Everybody who works here or did. */
export const People = z
  .strictObject({
    items: z.array(
      z.strictObject({
        id: Id,
        name: z.string(),
        initials: z.string(),
        roles: z.array(z.enum(roles)),
        joinedAt: Instant,
        leftAt: Instant.nullable(),
        /** Engines and trays in hand: nobody leaves with any. */
        holds: z.int(),
        /** Signed in at so many places now. */
        signedIn: z.int(),
      }),
    ),
  })
  .meta({ id: 'People' });
export type People = z.infer<typeof People>;

export const AddPerson = z.strictObject({ name: someWords(120), initials: Initials, roles: Roles, pin: Pin }).meta({
  id: 'AddPerson',
  examples: [{ name: 'Runa Solheim', initials: 'RS', roles: ['technician'], pin: '7305' }],
});
export type AddPerson = z.infer<typeof AddPerson>;

export const ChangePerson = z
  .strictObject({ name: someWords(120).optional(), initials: Initials.optional(), roles: Roles.optional() })
  .refine((asked) => Object.keys(asked).length > 0, 'must change something')
  .meta({ id: 'ChangePerson', examples: [{ roles: ['technician', 'lead'] }] });
export type ChangePerson = z.infer<typeof ChangePerson>;

export const NewPin = z.strictObject({ pin: Pin }).meta({ id: 'NewPin', examples: [{ pin: '7305' }] });
export type NewPin = z.infer<typeof NewPin>;

export const OwnPin = z
  .strictObject({ pin: Pin, newPin: Pin })
  .meta({ id: 'OwnPin', examples: [{ pin: '7305', newPin: '590174' }] });
export type OwnPin = z.infer<typeof OwnPin>;
