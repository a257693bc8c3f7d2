#!/bin/sh
# hardened.sh PROGRAM LIBRARY: does the built program hold what the Makefile's HARDEN and HARDEN_LINK ask for? Read from the
# files alone, with readelf and ar of binutils, which the compiler brings along. Exit status 1 if something is missing.
export LC_ALL=C
program=$1
library=$2
bad=0

# needs WHAT OPTION-OF-READELF PATTERN: the program holds a line of that pattern.
needs() {
    readelf "-W$2" "$program" | grep -Eq "$3" || { echo "$program: no $1"; bad=1; }
}

needs "PIE" h 'Type: +DYN'
needs "PIE" d '\(FLAGS_1\).* PIE'
needs "RELRO" l 'GNU_RELRO'
needs "binding at the start" d '\(FLAGS_1\).* NOW'
needs "stack that holds no code" l 'GNU_STACK.* RW +0x'
needs "stack protector" s ' UND __stack_chk_fail'
needs "fortified function" s ' UND __[a-z]+_chk'

# Each object tells whether its jumps and returns are guarded; the program only does if the C library is so too.
case $(readelf -h "$program" | sed -n 's/ *Machine: *//p') in
*X86-64* | *80386*) guarded='x86 feature: IBT, SHSTK' ;;
AArch64) guarded='AArch64 feature: BTI, PAC' ;;
*) guarded= ;;
esac
objects=$(ar t "$library" | wc -l)
if [ -n "$guarded" ] && [ "$(readelf -Wn "$library" | grep -c "$guarded")" -ne "$objects" ]; then
    echo "$library: not each of $objects objects has: $guarded"
    bad=1
fi
exit $bad
