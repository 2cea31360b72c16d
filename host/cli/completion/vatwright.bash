# Completion of vatwright in bash; the program itself says what may come next.
# shellcheck shell=bash

# The words before the cursor as the program would get them: bash splits them at '=' and ':'.
_vatwright_words() {
  local i word
  words=() opened=""
  for ((i = 1; i <= COMP_CWORD; ++i)); do
    word=${COMP_WORDS[i]}
    if [[ ${#words[@]} -gt 0 && ($word == [=:]* || ${COMP_WORDS[i - 1]} == *[=:]) && ${COMP_WORDS[i - 1]} != [\'\"]* ]]; then
      words[-1]+=$word
    else
      words+=("$word")
    fi
  done
  [[ $word == [\'\"]* ]] && opened=yes
  words=("${words[@]//[\\\'\"]/}")
}

_vatwright() {
  local words opened offer typed
  _vatwright_words
  typed=${words[-1]}
  COMPREPLY=()
  while IFS= read -r offer; do
    case $offer in
      :folders) compopt -o filenames 2>/dev/null; mapfile -t COMPREPLY < <(compgen -d -- "${typed##*=}") ;;
      :files*)
        compopt -o filenames 2>/dev/null
        local suffix=${offer#:files}
        mapfile -t COMPREPLY < <(compgen -d -- "${typed##*=}"; compgen -f -X "!*${suffix:+.${suffix# }}" -- "${typed##*=}")
        ;;
      *)
        [[ $offer == *= ]] && compopt -o nospace 2>/dev/null
        if [[ -z $opened ]]; then # bash replaces only what stands after the last '='
          [[ $typed == *=* ]] && offer=${offer#"${typed%"${typed##*=}"}"}
          printf -v offer %q "$offer"
          offer=${offer//\\=/=}
        fi
        COMPREPLY+=("$offer")
        ;;
    esac
  done < <("${COMP_WORDS[0]}" complete "${words[@]}" 2>/dev/null)
}
complete -F _vatwright vatwright
