#!/bin/sh
# The printed line is for the scissors. I fit by the line that is sewn, so off comes the 5/8 inch,
# all round, in every size. The notches move in with it.
set -eu
. "$(dirname "$0")/tool.sh"

for size in 1 2 3; do
  staywright strip-allowance "$out/1-cutting-size-$size.svg" --allowance 5/8in \
    -o "$out/2-net-size-$size.svg"
done
