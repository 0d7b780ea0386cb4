import { StaywrightError } from '../errors.ts';
import { systemReason } from './system-reason.ts';

/** Without a listener, a reader that goes away (`| head -1`) would end the process with a stack trace. */
export const toleratePipes = (): void => {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => {});
};

/** Writes all of it; a closed pipe is the reader's own choice and no error. */
export const writeStream = (stream: NodeJS.WriteStream, content: Uint8Array | string): Promise<void> =>
  new Promise((done, fail) => {
    stream.write(content, (error) => {
      if (error == null || ('code' in error && (error.code === 'EPIPE' || error.code === 'ERR_STREAM_DESTROYED')))
        return done();
      const where = stream === process.stdout ? 'standard output' : 'standard error';
      fail(
        new StaywrightError('input', `cannot be written: ${systemReason(error, 'the system refuses')}`, {
          where,
          cause: error,
        }),
      );
    });
  });
