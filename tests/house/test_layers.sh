#!/bin/sh
# SPDX-License-Identifier: MIT
# The layers hold: who includes whom, what the objects of a folder call, and
# where there is memory that changes behind everybody's back.
set -u
cd "$(dirname "$0")/../.." || exit 3
failed=0
fault() { echo "$*"; failed=1; }

# Each folder of src, after a colon the folders it may include: those to its left.
# core is parted into rooms, of which the same is true.
layers='core/base: core/money:core/base core/tariff:core/base,core/money
    core/goods:core/base,core/money,core/tariff core/physics:core/base,core/tariff,core/goods
    core/cost:core/base,core/money,core/tariff,core/goods,core/physics
    core/knapsack:core/base core/wall:core/base,core/money,core/knapsack
    profile:core sheet:core,profile print:core,profile,sheet
    screen:core,profile,sheet,print command:core,profile,sheet,print
    main.c:core,profile,sheet,print,screen,command'

# Lines such as src/core/cost/fit.c:6:#include "core/cost/lifecycle.h".
grep -rnE '^[[:space:]]*#[[:space:]]*include' src | awk -v layers="$layers" '
    BEGIN {
        for (n = split(layers, list, " "); n > 0; n--) {
            split(list[n], pair, ":")
            allowed[pair[1]] = pair[1] "," pair[2]
        }
    }
    function fault(why) { print $0 ": " why; failed = 1 }
    {
        file = $0
        sub(/:.*/, "", file)
        sub(/^src\//, "", file)
        folder = file
        while (!(folder in allowed) && sub(/\/[^\/]*$/, "", folder))
            ;
        header = $0
        sub(/^[^<"]*["<]/, "", header)
        sub(/[">].*/, "", header)
        if ($0 ~ /include[[:space:]]*</) {
            if (header ~ /(curses|term)\.h$/ && folder != "screen")
                fault("curses is for screen")
            if (header ~ /(iniparser|dictionary)\.h$/ && folder != "profile")
                fault("iniparser is for profile")
            next
        }
        if (header !~ /\//)
            fault("write the folder as well")
        top = within = header
        sub(/\/.*/, "", top)
        sub(/\/[^\/]*$/, "", within)
        if (index("," allowed[folder] ",", "," top ",") == 0 && index("," allowed[folder] ",", "," within ",") == 0)
            fault(folder " includes only " allowed[folder])
        # A renderer of sheets knows the neutral sheet, not any of those that fill it.
        if (folder == "print" && top == "sheet" && header != "sheet/sheet.h")
            fault("print knows sheet/sheet.h alone")
    }
    END { exit failed }' || failed=1
for folder in src/*/ src/core/*/; do
    folder=${folder#src/}
    folder=${folder%/}
    [ "$folder" = core ] || echo "$layers" | tr -s ' ' '\n' | grep -q "^$folder:" || fault "src/$folder is no layer"
done
ls src/core/*.[ch] 2>/dev/null | sed 's/$/: belongs into one of the rooms of core/' | grep . && failed=1

# What follows reads symbols, so it wants objects without instrumentation.
if grep -qE -e '-fsanitize|--coverage|-flto' "$BUILD/flags"; then
    exit "$failed"
fi

# For each object, the functions and variables of others it uses ("uses"), and
# its own variables that can change ("owns"). Constants with addresses in them
# lie in .data.rel.ro, which does not change; __x_chk and __isoc99_x are x.
objects=$(for source in src/*/*.c src/*/*/*.c; do echo "$BUILD/${source%.c}.o"; done)
symbols=$BUILD/symbols.txt
{
    # shellcheck disable=SC2086 # a list of names
    nm -A -u $objects | awk '{ sub(/:$/, "", $1); print "uses", $1, $NF }'
    # shellcheck disable=SC2086
    nm -A -f sysv $objects | awk -F'|' '$7 ~ /COM/ || ($7 ~ /^\.t?(data|bss)/ && $7 !~ /^\.data\.rel\.ro/) { print "owns", $1 }' |
        sed 's/:/ /'
} | sed -E 's/:? +/ /g; s/ __(.*)_chk$/ \1/; s/ __isoc[0-9]+_/ /' >"$symbols"

# Read as: what may stand in which files, and why. The rest of each list is a fault.
awk -v build="$BUILD/src/" '
    function allow(kind, files, names,    list, i, n) {
        n = split(names, list, " ")
        for (i = 1; i <= n; i++)
            allowed[kind, files, list[i]] = 1
    }
    BEGIN {
        # core computes and does nothing else: no printing, files, clock, environment, locale.
        allow("uses", "core", "memchr memcmp memcpy memmove memset bcmp strchr strcmp strcspn strlen strncmp")
        allow("uses", "core", "strrchr strspn strstr snprintf vsnprintf qsort bsearch")
        allow("uses", "core", "acos acosh asin asinh atan atan2 cbrt ceil copysign cos erf erfc exp exp2 expm1")
        allow("uses", "core", "fabs floor fma fmax fmin fmod frexp hypot ldexp lgamma llround log log10 log1p log2")
        allow("uses", "core", "lround modf nearbyint nextafter pow remainder rint round scalbn sin sinh sqrt tan")
        allow("uses", "core", "tanh tgamma trunc")
        allow("uses", "core", "__stack_chk_fail _GLOBAL_OFFSET_TABLE_ _DYNAMIC")
        # Growing text is what it is for; tc_text_free frees it.
        allow("uses", "core/base/text", "malloc realloc free")
        allow("uses", "core/base/grow", "realloc") # for arrays whose owners free them
        allow("uses", "core/base/index", "malloc free")
        # One work space for all draws, freed before it returns; tc_uncertainty_free frees the result.
        allow("uses", "core/cost/uncertainty", "calloc free")
        # Coefficients of each candidate, freed before it returns.
        allow("uses", "core/cost/knowing", "calloc free")
        allow("uses", "core/cost/stages", "calloc free") # freed before it returns
        allow("uses", "core/cost/dominance", "calloc free") # freed before it returns
        allow("uses", "core/cost/counter_make", "calloc free") # tc_counter_free frees it
        # Threads, for the studies; helpers take no signals, whose handlers belong to the calling thread.
        allow("uses", "core/base/parallel", "pthread_create pthread_join pthread_self pthread_equal")
        allow("uses", "core/base/parallel", "pthread_sigmask sigfillset sigdelset sysconf")
        # A search grows with its wall; the caller makes a tc_knapsack and frees it.
        allow("uses", "core/knapsack/knapsack", "malloc calloc realloc free")
        allow("uses", "core/knapsack/knapsack_branch", "calloc realloc free")
        allow("uses", "core/knapsack/knapsack_bound", "calloc free")
        allow("uses", "core/knapsack/knapsack_heuristic", "calloc free")
        allow("uses", "core/knapsack/knapsack_presolve", "calloc free")
        # The same for the choices of a wall; the mix found is freed by tc_wall_mix_free.
        allow("uses", "core/wall/wall_bays", "calloc free")
        allow("uses", "core/wall/wall_knapsack", "calloc realloc free")
        allow("uses", "core/wall/wall_mix", "free")
        allow("uses", "core/wall/wall_place", "calloc free")
        allow("uses", "core/wall/wall_objective", "calloc malloc free") # freed before it returns
        # Bays and rows are found by the thousand; each list has a free of its own.
        allow("uses", "core/wall/wall_pattern", "realloc free")
        allow("uses", "core/wall/wall_rows", "calloc malloc realloc free")
        allow("uses", "core/wall/wall_stack", "calloc malloc free")
        allow("uses", "core/wall/wall_near", "calloc free")
        allow("uses", "core/wall/wall_master", "calloc free")
        allow("uses", "core/wall/wall_branch", "calloc realloc free")
        allow("uses", "core/wall/wall_mixed", "calloc free")
        allow("uses", "core/knapsack/simplex", "calloc realloc free")
        allow("uses", "core/wall/wall_sensitivity", "calloc free") # freed before it returns
        # Finds the fewest digits that read back as the same number.
        allow("uses", "core/base/number", "strtod")
        # iniparser reports through a callback that is given no context.
        allow("owns", "profile/ini_values", "complaint reader_lock readers")
        # The command line answers wrong usage and --help itself.
        allow("uses", "command", "printf puts stdout stderr")
        # A price list may come from standard input.
        allow("uses", "command/own", "stdin")
        # The process and its terminal are for main, and for screen.
        process = "^(exit|_exit|abort|printf|vprintf|puts|putchar|perror|stdout|stderr|stdin|setlocale)$"
    }
    {
        file = substr($2, length(build) + 1)
        sub(/\.o:?$/, "", file)
        layer = file
        sub(/\/.*/, "", layer)
        if ((($1, layer, $3) in allowed) || (($1, file, $3) in allowed) || layer == "screen")
            next
        if ($1 == "owns")
            why = "can change and is seen by all: pass it, or make it const"
        else if ($3 ~ process)
            why = "is for main.c"
        else if (layer == "core" && $3 !~ /^tc_/)
            why = "is not for core, which computes and does nothing else"
        else
            next
        print "src/" file ".c: " $3 " " why
        failed = 1
    }
    END { exit failed }' "$symbols" || failed=1
exit "$failed"
