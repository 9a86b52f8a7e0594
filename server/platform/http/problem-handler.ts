import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { hasZodFastifySchemaValidationErrors } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { type ProblemCode, problems, problemType } from '#contracts/problems.ts';
import { constraintProblem } from '#platform/constraint-problem.ts';
import { ProblemError } from '#platform/problem.ts';
import { faultWords } from './fault-words.ts';

/** Fastify's own refusals, and what they are called here. */
const fastifyCodes: Readonly<Record<string, readonly [ProblemCode, string]>> = {
  FST_ERR_CTP_INVALID_JSON_BODY: [
    'malformed-json',
    'The body could not be read as JSON. Check quotes, commas and braces.',
  ],
  FST_ERR_CTP_EMPTY_JSON_BODY: [
    'malformed-json',
    'The body is empty but is said to be JSON. Send {} or leave the content type out.',
  ],
  FST_ERR_CTP_BODY_TOO_LARGE: ['too-big', 'The body is larger than this route takes.'],
  FST_ERR_CTP_INVALID_MEDIA_TYPE: ['unsupported-media', 'Send application/json (or text/csv where a file is taken).'],
};

function asProblem(error: FastifyError | Error): ProblemError {
  if (error instanceof ProblemError) return error;
  if (hasZodFastifySchemaValidationErrors(error)) {
    const errors = error.validation.map((fault) => ({
      pointer: fault.instancePath === '' ? '/' : fault.instancePath,
      detail: fault.message ?? 'is not of the expected form',
    }));
    const where = error.validationContext ?? 'request';
    return new ProblemError(
      'invalid-request',
      `In the ${where}: ${errors.map((e) => `${e.pointer} ${e.detail}`).join('; ')}.`,
      { errors },
    );
  }
  const fastify = 'code' in error ? fastifyCodes[String(error.code)] : undefined;
  if (fastify !== undefined) return new ProblemError(...fastify);
  const refusal = constraintProblem(error);
  if (refusal !== undefined) return refusal;
  if ('statusCode' in error && error.statusCode === 429) {
    return new ProblemError('too-many', 'Too many requests from here. Wait a little and try again.');
  }
  if (
    'statusCode' in error &&
    typeof error.statusCode === 'number' &&
    error.statusCode >= 400 &&
    error.statusCode < 500
  ) {
    return new ProblemError('invalid-request', `${error.message}.`);
  }
  return new ProblemError(
    'internal',
    'It was written down and nothing was changed. Try again; if it stays, tell whoever runs this server.',
  );
}

export function sendProblem(request: FastifyRequest, reply: FastifyReply, problem: ProblemError): FastifyReply {
  return reply
    .code(problem.status)
    .type('application/problem+json')
    .serializer(JSON.stringify)
    .send({
      type: problemType(problem.code),
      title: problems[problem.code].title,
      status: problem.status,
      detail: problem.message,
      instance: `urn:crosshatch:request:${request.id}`,
      ...problem.extras,
    });
}

/** Every error leaves as RFC 9457 problem details; what is not refused on purpose is logged and told without detail. */
export function installProblemHandler(app: FastifyInstance): void {
  z.config({ customError: faultWords });
  app.setErrorHandler((error: FastifyError, request, reply) => {
    const problem = asProblem(error);
    if (problem.code === 'internal') request.log.error({ err: error }, 'unhandled');
    return sendProblem(request, reply, problem);
  });
}
