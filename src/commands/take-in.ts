import { moveCommand } from './move-command.ts';

export const takeIn = moveCommand('take-in', 'in', 'moves stitching lines inwards: smaller round the body', [
  {
    says: 'centre back, half an inch on each of its lines, nothing at the waist and below',
    line: 'staywright take-in net.svg --seam cb --amount 0.5in --above waist -o v2.svg',
  },
  {
    says: 'an inch round the body at the underbust, most of it at the back',
    line: 'staywright take-in net.svg --girth 1in --share cb=4,blade=1 \\\n  --between bust,waist -o v2.svg',
  },
  {
    says: 'an amount of its own at each level, then the gap that it leaves',
    line: 'staywright take-in net.svg --seam cb --at bust=6mm --at waist=0mm |\n  staywright gap --body body.json',
  },
]);
