# SPDX-License-Identifier: MIT
# fish completion for tankcost: what could stand here is asked of the program.
function __tankcost_complete
    set -l words (commandline -opc)
    set -l found ($words[1] complete $words[2..-1] (commandline -ct | string unescape) 2>/dev/null)
    if set -q found[1]
        printf '%s\n' $found
    else
        __fish_complete_path (commandline -ct)
    end
end
complete -c tankcost -f -a '(__tankcost_complete)'
