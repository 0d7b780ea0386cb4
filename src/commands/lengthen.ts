import { changeLengthCommand } from './change-length-command.ts';

export const lengthen = changeLengthCommand('lengthen', 'longer', 'makes the part between two levels longer', [
  {
    says: 'half an inch more between bust and waist: the bust lies higher',
    line: 'staywright lengthen net.svg --between bust,waist --amount 0.5in -o v2.svg',
  },
  {
    says: 'two centimetres more below the waist, above the flare of the hip',
    line: 'staywright lengthen net.svg --between waist-1in,high-hip --amount 2cm \\\n  -o v2.svg',
  },
  {
    says: 'longer above the waist, then the gap at the levels where they lie now',
    line: 'staywright lengthen net.svg --between bust,waist --amount 1cm |\n  staywright gap --body body.json',
  },
]);
