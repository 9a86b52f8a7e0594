declare const brand: unique symbol;

/** A value of type T that only its one constructor can make: a plain T is not assignable to it. */
export type Brand<T, Name extends string> = T & { readonly [brand]: Name };
