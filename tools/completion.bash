# Completion of clench for bash. Asks the program itself: its commands are the indented words of
# `clench help`, the options of a command those named by `clench help COMMAND`.
_clench() {
    local word=${COMP_WORDS[COMP_CWORD]} program=${COMP_WORDS[0]} choices
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        choices=$("$program" help 2>/dev/null | sed -n 's/^  *\([a-z][a-z-]*\) .*/\1/p')
        mapfile -t COMPREPLY < <(compgen -W "$choices" -- "$word")
    elif [[ $word == -* ]]; then
        choices=$("$program" help "${COMP_WORDS[1]}" 2>/dev/null | grep -o -e '--[a-z][a-z-]*' | sort -u)
        mapfile -t COMPREPLY < <(compgen -W "$choices" -- "$word")
    else
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
        compopt -o filenames
    fi
}
complete -F _clench clench
