# Completion of vatwright in fish; the program itself says what may come next.
function __vatwright_offers
    set -l words (commandline -opc)[2..] (commandline -ct | string unescape)
    for offer in (vatwright complete $words 2>/dev/null)
        switch $offer
            case ':folders'
                __fish_complete_directories $words[-1]
            case ':files'
                __fish_complete_path $words[-1]
            case ':files *'
                __fish_complete_suffix .(string replace ':files ' '' -- $offer)
            case '*'
                echo $offer
        end
    end
end
complete -c vatwright -f -a '(__vatwright_offers)'
