#!/bin/sh
# SPDX-License-Identifier: MIT
# The Makefile never uses what is out of date, and does not do things twice.
. "$(dirname "$0")/../support/toy.sh"

# says WANTED WHEN: what the program prints now.
says() { [ "$(build/tankcost)" = "$1" ] || fault "$2: wanted '$1', got '$(build/tankcost)'"; }
make() { command make V=1 "$@" >log 2>&1 || { cat log; fault "make $* failed"; }; }
compiled() { grep -c -e ' -c -o ' log; }

make -j4
says '1 1.2.3 /usr/local/share/tankcost none 1' 'first build'

make
[ ! -s log ] || fault "a second make did: $(cat log)"

echo '#define TOY 2' >src/core/toy.h
make
says '2 1.2.3 /usr/local/share/tankcost none 1' 'a header changed'
[ "$(compiled)" -eq 1 ] || fault "a header of one object made $(compiled) be compiled"

rm src/core/spare.c
make
! ar t build/libtankcost.a | grep -q spare || fault "the object of a removed source stays in the archive"

echo 'int added(void); int added(void) { return 0; }' >src/core/added.c
make
ar t build/libtankcost.a | grep -q added || fault "a new source is not built"
[ "$(compiled)" -eq 1 ] || fault "a new source made $(compiled) be compiled"

make CPPFLAGS='-DEXTRA='"'"'"extra"'"'"
says '2 1.2.3 /usr/local/share/tankcost extra 1' 'CPPFLAGS changed'
make PREFIX=/opt/tc
says '2 1.2.3 /opt/tc/share/tankcost none 1' 'PREFIX changed'

printf '#!/bin/sh\nexec %s -DEXTRA='"'"'"other compiler"'"'"' "$@"\n' "${CC:-cc}" >othercc
chmod +x othercc
make CC=./othercc
says '2 1.2.3 /usr/local/share/tankcost other compiler 1' 'CC changed'
make
says '2 1.2.3 /usr/local/share/tankcost none 1' 'CC changed back'

echo 1.2.4 >src/version.txt
make BUILD=elsewhere
elsewhere/tankcost | grep -q 1.2.4 || fault "BUILD is not honoured"
make BUILD=elsewhere clean
[ ! -e elsewhere ] && [ -e build/tankcost ] || fault "clean removed the wrong things"
for dangerous in . src /; do
    ! command make BUILD=$dangerous clean >log 2>&1 || fault "BUILD=$dangerous clean was not refused"
done
[ -e src/main.c ] || exit 1

rm -f build/tankcost
make -j4 clean all
says '2 1.2.4 /usr/local/share/tankcost none 1' 'clean and all at once'

if command make PKG_CONFIG=false CPPFLAGS=-nostdinc >log 2>&1 || ! grep -q "make deps" log; then
    fault "a missing library is not answered with 'make deps': $(cat log)"
fi

# What deps installs is seen by the goals beside it: here, a pkg-config that was
# not there when make began.
cat >tests/deps <<'END'
#!/bin/sh
sleep 0.2
printf '#!/bin/sh\n[ "$1" = --libs ] || echo '"'"'-DEXTRA="\\"installed\\""'"'"'\n' >pc
chmod +x pc
echo deps >>order
END
chmod +x tests/deps
make -j4 all deps PKG_CONFIG=./pc
says '2 1.2.4 /usr/local/share/tankcost installed 1' 'deps beside all'
[ "$(cat order)" = deps ] || fault "deps ran more than once"

exit "$failed"
