#!/bin/sh
# psplib.sh [--effort N] - solves the problems of ../shared/psplib and holds every line against the published optimum:
# a wrong optimum or a bound above it fails, and so does a set with fewer proven problems than it must have. Times are
# printed only. PSPLIB names another folder.
set -u
cd "$(dirname "$0")/../.."
problems=${PSPLIB:-../shared/psplib}
bench=${BUILD:-build}/tests/bench/bench_psplib
if [ ! -d "$problems" ]; then
    echo "psplib: skipped, there is no $problems"
    exit 0
fi

# compare SET LEAST - standard input: the optimum.csv, then a line "results", then what bench_psplib printed
compare() {
    awk -F, -v set="$1" -v least="$2" '
        $0 == "results" { results = 1; next }
        !results { optimum[$1] = $2; next }
        { count++; seconds += $5; if ($5 > worst) worst = $5 }
        {
            known = optimum[$1]
            low = high = known
            if (known ~ /\.\./) { split(known, ends, /\.\./); low = ends[1]; high = ends[2] }
            if (known == "") { print set ": no optimum is known of " $1; wrong++ }
            else if (known == "unsat" ? $2 == "optimal" || $2 == "feasible" : $2 == "infeasible") wrong_line()
            else if (known != "unsat" && ($3 > high + 0 || ($4 != "" && $4 < low + 0))) wrong_line()
            else if ($2 == "optimal" || $2 == "infeasible") proven++
            else {
                gap = $3 > 0 && $4 != "" ? ($4 - $3) / $3 : 1
                if (gap > most) most = gap
                print set ": not proven: " $0
            }
        }
        function wrong_line() { wrong++; print set ": WRONG: " $0 " (published: " known ")" }
        END {
            printf "%s: %d problems, %d proven (at least %d), %d wrong, mean %.3f s, worst %.2f s, worst gap %.1f %%\n",
                set, count, proven, least, wrong, count ? seconds / count : 0, worst, 100 * most
            exit wrong > 0 || proven < least
        }'
}

failed=0
run() {
    set_name=$1 least=$2
    shift 2
    { cat "$problems/$set_name/optimum.csv"; echo results; "$bench" "$@" "$problems/$set_name"/[!o]*; } |
        compare "$set_name" "$least" || failed=1
}
run j30 240 "$@"
run max10 135 "$@"
run max20 135 "$@"
exit $failed
