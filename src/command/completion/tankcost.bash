# SPDX-License-Identifier: MIT
# bash-completion for tankcost: what could stand here is asked of the program.
_tankcost() {
    local words=() word i found
    # Bash cuts words at '=' and ':'; the program wants them whole.
    for ((i = 1; i <= COMP_CWORD; i++)); do
        word=${COMP_WORDS[i]}
        if ((${#words[@]} > 0)) && [[ $word == [=:]* || ${COMP_WORDS[i - 1]} == [=:] ]] && [[ ${words[-1]} != '' ]]; then
            words[-1]+=$word
        else
            words+=("$word")
        fi
    done
    word=${words[-1]-}
    # What is being typed may be quoted: candidate\ 2/price or "candidate 2/price".
    local quote=${word:0:1} bare
    case $quote in
    \" | \') bare=${word:1} ;;
    *) quote='' bare=${word//\\/} ;;
    esac
    words[-1]=$bare
    # Readline replaces only what stands behind the last '=' or ':'.
    local kept=''
    [[ -n $quote || $bare != *[=:]* ]] || kept=${bare%"${bare##*[=:]}"}
    COMPREPLY=()
    while IFS= read -r found; do
        found=${found%%$'\t'*}
        found=${found#"$kept"}
        [[ -n $quote ]] || printf -v found %q "$found"
        COMPREPLY+=("$found")
    done < <("${COMP_WORDS[0]}" complete "${words[@]}" 2>/dev/null)
    # A path that ends in '=' goes on.
    [[ ${#COMPREPLY[@]} -ne 1 || ${COMPREPLY[0]} != *= ]] || compopt -o nospace
}
complete -o default -F _tankcost tankcost
