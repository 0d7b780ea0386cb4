import { moveCommand } from './move-command.ts';

export const letOut = moveCommand('let-out', 'out', 'moves stitching lines outwards: larger round the body', [
  {
    says: 'the side seam below the waist, a quarter inch on each of its lines',
    line: 'staywright let-out net.svg --seam side --amount 1/4in --below waist -o v2.svg',
  },
  {
    says: 'two centimetres round the body, over all lines of two seams',
    line: 'staywright let-out net.svg --seam side,cb --girth 2cm -o v2.svg',
  },
  {
    says: 'full at three inches below the waist already; what does it measure then?',
    line: 'staywright let-out net.svg --seam side --amount 6mm --below waist \\\n  --full-at waist-3in | staywright girth',
  },
]);
