#!/bin/sh
# The pattern came as one drawing with three sizes nested in it. I take out each size by itself
# and tell the tool what the drawing cannot say: which line this is, and what the panels and the
# seams are called, from centre front to centre back. The level lines are in the drawing already.
set -eu
. "$(dirname "$0")/tool.sh"

for size in 1 2 3; do
  staywright label drawn-pattern.svg --within "size-$size" --test-square 2in \
    --name "bodice, size $size" --line cutting --pieces pairs --units in \
    --panels front,mid-front,side-front,side-back,mid-back,back \
    --seams cf,princess,underarm-front,side,underarm-back,blade,cb \
    -o "$out/1-cutting-size-$size.svg"
done
