#!/bin/sh
# SPDX-License-Identifier: MIT
# What install puts somewhere uninstall takes away again, and nothing else.
. "$(dirname "$0")/../support/toy.sh"

make() { command make "$@" >log 2>&1 || { cat log; fault "make $* failed"; }; }
listed() { (cd "$1" && find . -type f | sort); }
[ -d profiles/plans ] || { mkdir -p profiles/plans && echo '; nothing' >profiles/plans/toy.ini; }
[ -e man/tankcost.1 ] || { mkdir -p man && echo '.Dd' | tee man/tankcost.1 man/tankcost-toy.5 >/dev/null; }

make install DESTDIR="$toy/root" PREFIX=/usr
{
    echo ./usr/bin/tankcost
    for page in man/*.[1-8]; do
        echo "./usr/share/man/man${page##*.}/$(basename "$page")"
    done
    printf './usr/share/%s\n' bash-completion/completions/tankcost zsh/site-functions/_tankcost \
        fish/vendor_completions.d/tankcost.fish
    find profiles -type f -name '*.ini' | sed 's,^profiles,./usr/share/tankcost,'
} | sort >wanted
listed root >found
diff wanted found || fault "not what was to be installed"
while read -r file; do
    mode=$(stat -c %a "root/$file" 2>/dev/null || stat -f %Lp "root/$file")
    case $file:$mode in */bin/*:755 | *.*:644 | */completions/*:644 | */_*:644) ;; *) fault "$file has mode $mode" ;; esac
done <found
root/usr/bin/tankcost | grep -q ' /usr/share/tankcost ' || fault "looks for its profiles elsewhere"

# A second time over the first, as an update does.
make install DESTDIR="$toy/root" PREFIX=/usr
listed root | diff wanted - || fault "installing twice differs from installing once"

echo kept >root/usr/share/tankcost/mine.ini
echo kept >root/usr/bin/other
make uninstall DESTDIR="$toy/root" PREFIX=/usr
[ "$(listed root | tr '\n' ' ')" = './usr/bin/other ./usr/share/tankcost/mine.ini ' ] ||
    fault "after uninstall, with two files of others: $(listed root)"
rm root/usr/share/tankcost/mine.ini
make uninstall DESTDIR="$toy/root" PREFIX=/usr
[ ! -e root/usr/share/tankcost ] || fault "uninstall leaves its data folder"

make install DESTDIR="$toy/root" BINDIR=/b DATADIR=/d MANDIR=/m COMPLETIONDIR=/c
[ -x root/b/tankcost ] && [ -d root/d/plans ] && [ -d root/m/man1 ] && [ -d root/c/zsh ] ||
    fault "BINDIR, DATADIR, MANDIR or COMPLETIONDIR is not honoured"

# Blanks and quotes in the names: it stays within them, and leaves its neighbours alone.
mkdir -p 'a b' && echo kept >'a b/My' && echo kept >a
make install DESTDIR="$toy/a b" PREFIX="/My App's"
[ -x "a b/My App's/bin/tankcost" ] && [ -d "a b/My App's/share/tankcost/plans" ] || fault "a PREFIX with blanks: $(find 'a b')"
make uninstall DESTDIR="$toy/a b" PREFIX="/My App's"
[ "$(listed 'a b')" = ./My ] && [ -e a ] || fault "uninstall from a PREFIX with blanks: $(listed 'a b')"

# A release packed and checked in a folder with blanks and umlauts, of sources that can only be read, twice.
tree="$toy/Pfäd mit Räumen"
mkdir "$tree" && cp -R Makefile src profiles man tests "$tree" && mkdir "$tree/tests/toy" &&
    cp "$top/tests/run" "$tree/tests" || exit 3
printf '#!/bin/sh\npwd >"$BUILD/where" && "$BUILD/tankcost" >"$BUILD/printed"\n' >"$tree/tests/toy/test_toy.sh"
chmod +x "$tree/tests/toy/test_toy.sh"
(cd "$tree" && chmod -R a-w Makefile src profiles man tests) || exit 3
there=$tree/build/tankcost-1.2.3
for time in first second; do
    (CDPATH=/ POSIXLY_CORRECT=1 && export CDPATH POSIXLY_CORRECT && make -C "$tree" distcheck)
    [ "$(cat "$there/build/where")" = "$there" ] && grep -q '1.2.3' "$there/build/printed" ||
        fault "the $time distcheck in a folder with blanks did not run the tests of the release"
    [ -z "$(find "$there/src" "$there/tests" ! -perm -u+w)" ] || fault "a release of sources only to be read cannot be written"
done
(cd "$tree" && chmod -R u+w .)
[ "$(find . -maxdepth 1 -name 'Pf*' | wc -l)" -eq 1 ] || fault "a part of the name was taken for a folder"
exit "$failed"
