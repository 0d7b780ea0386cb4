import { changeLengthCommand } from './change-length-command.ts';

export const shorten = changeLengthCommand('shorten', 'shorter', 'makes the part between two levels shorter', [
  {
    says: 'half an inch less between bust and waist: the bust lies lower',
    line: 'staywright shorten net.svg --between bust,waist --amount 0.5in -o v2.svg',
  },
  {
    says: 'a shorter body above and below the waist, shared in proportion',
    line: 'staywright shorten net.svg --between bust,high-hip --amount 2cm -o v2.svg',
  },
  {
    says: 'shorter below the waist inside the piece, so that the flare survives',
    line: 'staywright shorten net.svg --between waist,high-hip --amount 1cm |\n  staywright girth',
  },
]);
