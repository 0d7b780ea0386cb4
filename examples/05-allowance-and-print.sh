#!/bin/sh
# Everything in order? Then allowance for the mock-up cloth: 5/8 inch on the seams, an inch at
# centre back so that there is something to let out, 3/8 inch top and bottom where only a
# binding goes on. Print, and keep the record of what I did to it.
set -eu
. "$(dirname "$0")/tool.sh"

keep 5-check.txt check "$out/4-altered.svg"
staywright add-allowance "$out/4-altered.svg" --allowance 5/8in --allowance cb=1in \
  --allowance top=3/8in --allowance bottom=3/8in -o "$out/5-mock-up.svg"
staywright print "$out/5-mock-up.svg" --paper a4 -o "$out/5-mock-up.pdf"
keep 5-description.txt describe "$out/5-mock-up.svg"
