#!/bin/sh
# The mock-up was sewn and worn. What I saw on her, and what I did about it, one thing at a time.
# I measured her again, each half by itself, since the lacing did not hang in the middle
# (body-at-the-fitting.json). Before the changes the paper would leave this gap:
set -eu
. "$(dirname "$0")/tool.sh"

keep 7-gap-before.txt gap "$out/4-altered.svg" --body body-at-the-fitting.json

# Her waist is higher than the pattern's: the tape tied round her waist lay 3/8 inch above the line.
staywright raise-line "$out/4-altered.svg" --level waist --amount 3/8in -o "$out/7a-waist.svg"

# The top dug in under the arm and across the back, but stood well in front.
staywright redraw-edge "$out/7a-waist.svg" --edge top --at princess=0in --at side=-3/8in --at cb=-3/8in \
  -o "$out/7b-top.svg"

# An upright fold stood beside the bust: 1/8 inch too much cloth in each mid-front panel, above the
# waist. Overlapping it right through takes the same off the waist and the hip, where nothing was
# wrong. The report says how to give that back, and I do it where the back pulled.
staywright slash "$out/7b-top.svg" --panel mid-front --from top --parallel --spread -1/8in \
  -o "$out/7c-fold.svg"
staywright let-out "$out/7c-fold.svg" --seam underarm-back --at underbust=0in --at waist=1/16in \
  --at high-hip=1/16in -o "$out/7d-waist-again.svg"

# Over the hip it strained and rode up. I ripped the side seams open from an inch below the waist
# until it lay flat, and measured how far they stood open at the bottom edge: left, then right.
staywright gusset "$out/7d-waist-again.svg" --seam side --below waist-1in --measured 7/8in,1-1/8in \
  -o "$out/7e-gusset.svg"

# She is not the same on both sides: the right hip is fuller, and at the waist the opening sat to
# one side. From here on left and right are panels of their own.
staywright split-sides "$out/7e-gusset.svg" -o "$out/7f-both-sides.svg"
staywright let-out "$out/7f-both-sides.svg" --side right --seam blade --below waist --amount 3/16in |
  staywright let-out --side right --seam cb --at underbust=0in --at waist=1/8in --at high-hip=0in |
  staywright take-in --side left --seam cb --at underbust=0in --at waist=1/8in --at high-hip=0in \
    -o "$out/7g-sides.svg"

# So many changes: do all seams still match? I true them, walk them, and look at the gap again.
staywright true "$out/7g-sides.svg" -o "$out/7h-trued.svg"
keep 7-walk.txt walk "$out/7h-trued.svg"
keep 7-check.txt check "$out/7h-trued.svg"
keep 7-gap-after.txt gap "$out/7h-trued.svg" --body body-at-the-fitting.json

# The second mock-up, left and right marked on every panel.
staywright add-allowance "$out/7h-trued.svg" --allowance 5/8in --allowance cb=1in \
  --allowance top=3/8in --allowance bottom=3/8in -o "$out/7-mock-up-2.svg" --pdf "$out/7-mock-up-2.pdf"
