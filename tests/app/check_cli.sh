#!/bin/sh
# The command line: exit statuses, what is said of wrong usage and of files that fail, and what colour depends on.
set -u
cd "$(dirname "$0")/../.." || exit 1
coatwright=${COATWRIGHT:-$PWD/build/coatwright}
there=${TEST_TMP:-$(mktemp -d)}
unset NO_COLOR COATWRIGHT_FINISHES
passed=0 failed=0

check() { # check NAME GOT WANT: GOT holds WANT, or is empty where WANT is
    case $2 in
    *"$3"*) [ -n "$3" ] || [ -z "$2" ] && passed=$((passed + 1)) && return ;;
    esac
    failed=$((failed + 1))
    printf '%s: %s:\n  got  %s\n  want %s\n' "$0" "$1" "$2" "$3"
}

says() { # says STATUS WANT ARGUMENT...: messages hold WANT, nothing but them is printed
    status=$1 want=$2
    shift 2
    "$coatwright" "$@" >"$there/out" 2>"$there/messages" </dev/null
    check "exit status of $*" "$?" "$status"
    check "$*" "$(cat "$there/messages")" "$want"
    check "output of $*" "$(cat "$there/out")" ''
}

gives() { # gives STATUS WANT ARGUMENT...: the output holds WANT
    status=$1 want=$2
    shift 2
    "$coatwright" "$@" >"$there/out" 2>"$there/messages" </dev/null
    check "exit status of $*" "$?" "$status"
    check "$*" "$(cat "$there/out")" "$want"
}

desk='plan examples/desk.json --now 2027-01-04T08:00Z'

# Wrong usage.
says 2 'expected a command: check, area, buy, mix, timetable, plan, today, sheet, publish, fetch-busy, finishes, woods, new, done, again, skip, undo, air, log, learned or serve, found nothing'
says 2 'found "plam" (did you mean "plan"?)' plam examples/desk.json
says 2 'found "frobnicate"' frobnicate
says 2 'expected JOB after area, such as: coatwright area desk.json, found nothing' area
says 2 'expected FOLDER after learned, such as: coatwright learned jobs, found nothing' learned
says 4 'nowhere: expected a readable folder, found no such folder' learned nowhere
says 3 'finishes: expected a folder with a job, found none' learned finishes
says 2 'expected coatwright plan JOB, found "b" as well' plan a b
says 2 'found "--jsn" (did you mean "--json"?)' area --jsn examples/desk.json
says 2 'found "--unit" (did you mean "--units"?)' area --unit=us examples/desk.json
says 2 'found "-j"' area -j examples/desk.json
says 2 '(coatwright area --help lists them), found --ics (an option of coatwright timetable' area examples/desk.json --ics x.ics
says 2 '(coatwright area --help lists them), found --out (an option of coatwright timetable, coatwright plan, coatwright sheet)' --out x area examples/desk.json
says 2 'expected metric|us after --units, found "furlong"' area --units furlong examples/desk.json
says 2 'expected metric|us after --units, found nothing' area examples/desk.json --units
says 2 'expected FILE after --ics, found ""' timetable examples/desk.json --ics=
says 2 'expected nothing behind --json' area --json=yes examples/desk.json
says 2 'expected a moment such as "2027-03-01 08:00"' area --now soon examples/desk.json
says 2 'expected a day that exists' area --now '2027-02-30 08:00' examples/desk.json
says 2 'expected a finish and an amount with --at: a job says it itself' mix examples/desk.json --at '15 C'
says 2 'expected a finish and an amount with --later' mix examples/desk.json --later
says 2 'found "danish-oyl" (did you mean "danish-oil"?)' mix danish-oyl 400 ml
says 2 'expected a volume such as "400 ml", a mass, or an area such as "1.4 m²", found "350"' mix danish-oil 350
says 2 'expected an amount above 0, found "0 ml"' mix danish-oil 0 ml
says 2 'such as "hardener 180 g", found "hardener"' mix hardwax-oil-two-part --have hardener
gives 0 '2 mixes of 324 ml, the most that 180 g of hardener makes' mix hardwax-oil-two-part --have hardener 180 g
gives 0 '2 mixes of 324 ml, the most that 180 g of hardener makes' mix hardwax-oil-two-part --have 'hardener 180 g'
says 2 'expected a temperature such as "20 C" or "68 F", found "warm"' mix danish-oil 400 ml --at warm
says 2 'found "danish-oyl" (did you mean "danish-oil"?)' finishes danish-oyl
gives 2 '"expected": "a command: check' --json
gives 2 '"found": "\"--jsn\" (did you mean \"--json\"?)"' area --jsn --json x
says 2 'expected coatwright finishes FINISH --from-label, the nearest finish' finishes --from-label

# Wrong input and files.
says 4 'no/such: expected' finishes --own no/such
says 4 'no-such.json: expected a readable file, found no such file' area no-such.json
says 4 'examples: expected a readable file, found a directory' plan examples
gives 4 '"file": "no-such.json"' plan no-such.json --json
echo '{' >"$there/broken.json"
says 3 'broken.json:2:1: expected' check "$there/broken.json"
gives 3 '"line": 2, "column": 1' check --json "$there/broken.json"

# Answers.
gives 0 "coatwright $(awk -F '"' '/define COATWRIGHT_VERSION "/ { print $2 }' include/coatwright.h)" --version
gives 0 'Commands (JOB is a file' --help
for command in check area buy mix timetable plan finishes; do
    gives 0 "coatwright $command" $command --help
    gives 0 'coatwright 0' $command --version
done
gives 0 'no mistakes' check examples/desk.json
gives 0 'no mistakes' check -- examples/desk.json
gives 0 'no mistakes' --now=2027-01-04 check examples/desk.json

# A file from a label is one that a job takes as it is.
mkdir "$there/mine"
"$coatwright" finishes danish-oil --from-label >"$there/mine/my-danish-oil.json" 2>"$there/messages"
check 'nothing but the file' "$(cat "$there/messages")" ''
sed "s/\"danish-oil\"/\"my-danish-oil\"/; s/\"zone\"/\"finishes\": \"mine\", &/" >"$there/mine.json" <<'END'
{"format": "coatwright-job/1", "job": "Shelf", "zone": "Europe/London", "start": "2027-03-01", "deliver": "2027-03-29",
 "schedules": {"oil": [{"sand": 180}, {"coat": "danish-oil"}]},
 "parts": [{"part": "shelf", "length": 900, "width": 150, "thickness": 18, "wood": "oak", "all": "oil"}]}
END
gives 0 'no mistakes' check "$there/mine.json"
gives 0 'own' finishes --own "$there/mine"

# A delivery on a Saturday is one by Friday's closing, and both are said.
sed 's/2027-03-29/2027-03-27/' "$there/mine.json" >"$there/saturday.json"
gives 0 'Delivery Sat 27 Mar (closed; last open moment Fri 26 Mar 2027 17:00); ' timetable "$there/saturday.json"
gives 0 'Delivery Mon 29 Mar 2027 17:00; ' timetable "$there/mine.json"
sed 's/2027-03-29/2027-02-28/' "$there/mine.json" >"$there/over.json"
says 3 'over.json:1:127: /deliver: expected a moment not before the start, 2027-03-01 08:00, found 2027-02-28 (closed; last open moment 2027-02-26 17:00)' \
    timetable "$there/over.json"

# Standard input; paths are then relative to the folder of the run.
(cd examples && "$coatwright" area - <desk.json) >"$there/out" 2>&1
check 'a job on standard input' "$(cat "$there/out")" 'Areas of'

# Files that cannot be written; nothing is printed then, and nothing half written stays.
says 4 'expected' timetable examples/desk.json --now 2027-01-04 --ics "$there/no/such.ics"
says 4 'expected' timetable examples/desk.json --now 2027-01-04 --svg "$there/no/such.svg"
says 4 'expected a folder to write into, found a file' plan examples/desk.json --now 2027-01-04 --out LICENSE
says 4 'expected a folder to write into' plan examples/desk.json --now 2027-01-04 --out "$there/no/folder"
mkdir "$there/job" && cp -r examples/desk* "$there/job"
mv "$there/job/desk.json" "$there/job/plan.json"
says 2 'plan.json: expected another file than those of the job, found one that was read' \
    plan "$there/job/plan.json" --now 2027-01-04 --out "$there/job"
says 2 'desk-parts.csv: expected another file than those of the job' \
    timetable "$there/job/plan.json" --now 2027-01-04 --ics "$there/job/desk-parts.csv"
check 'the job is still there' "$(cmp examples/desk.json "$there/job/plan.json" 2>&1)" ''
if [ -w /dev/full ]; then
    "$coatwright" finishes >/dev/full 2>"$there/messages"
    check 'exit status on a full disk' "$?" 4
    check 'a full disk' "$(cat "$there/messages")" 'standard output: expected room for all of it, found No space left'
    says 4 'expected' timetable examples/desk.json --now 2027-01-04 --ics /dev/full
fi
# shellcheck disable=SC2086
{ sleep 1 && "$coatwright" $desk --json && "$coatwright" $desk --json; echo $? >"$there/status"; } 2>"$there/messages" | :
check 'exit status of a closed pipe' "$(cat "$there/status")" 4
check 'a closed pipe' "$(cat "$there/messages")" 'standard output: expected room'
"$coatwright" finishes >&- 2>"$there/messages"
check 'exit status without standard output' "$?" 4

# Several jobs: one shop, whose descriptions may stand in files of their own.
cp examples/desk-shop.json "$there/same-shop.json"
sed 's/"people": 1,/"people": 2,/' examples/desk-shop.json >"$there/other-shop.json"
for kind in same other; do
    sed "s|desk-shop.json|$there/$kind-shop.json|; s|\"desk-|\"$PWD/examples/desk-|" examples/desk.json >"$there/$kind.json"
done
gives 0 'Timetable of Writing desk in oak' timetable examples/desk.json "$there/same.json" --trust-paths --now 2027-01-04
says 3 'same.json:3:10: /job: expected another name than in examples/desk.json: jobs of one calendar are known by it, found Writing' \
    timetable examples/desk.json "$there/same.json" --trust-paths --now 2027-01-04 --ics "$there/shop.ics"
check 'no calendar of jobs of one name' "$(ls "$there/shop.ics" 2>/dev/null)" ''
sed 's/Writing desk in oak/Second desk/' "$there/same.json" >"$there/second.json"
gives 0 'Timetable of Second desk' timetable examples/desk.json "$there/second.json" --trust-paths --now 2027-01-04 \
    --ics "$there/shop.ics"
unfolded=$(tr -d '\r' <"$there/shop.ics" | sed -e ':a' -e 'N' -e '$!ba' -e 's/\n //g' | grep '^SUMMARY:')
check 'events name their jobs' "$(echo "$unfolded" | grep -c '(Second desk)$')" \
    "$(echo "$unfolded" | grep -c '(Writing desk in oak)$')"
check 'a calendar of all jobs' "$(grep -c '^UID:' "$there/shop.ics")" "$(grep '^UID:' "$there/shop.ics" | sort -u | wc -l)"
cp "$there/second.json" "$there/kept.json"
says 2 'second.json: expected another file than those of the job' timetable examples/desk.json "$there/second.json" \
    --trust-paths --now 2027-01-04 --ics "$there/second.json"
check 'the second job is still there' "$(cmp "$there/kept.json" "$there/second.json" 2>&1)" ''
says 3 'other-shop.json:2:13: /people: expected 1 as in examples/desk-shop.json: jobs planned together share one shop, found 2' \
    timetable examples/desk.json "$there/other.json" --trust-paths
says 3 'doors.json:6:11: /zone: expected Europe/London as in examples/desk.json: jobs planned together share one shop' \
    timetable examples/desk.json examples/doors.json
gives 3 '"expected": "1 as in examples/desk-shop.json' timetable examples/desk.json "$there/other.json" --trust-paths --json
says 2 'expected one job with --svg, --chance or --apply, found 2' timetable examples/desk.json examples/doors.json --chance
gives 0 'Chance of being on time' timetable examples/doors.json --now 2027-01-04 --chance

# Without a timetable nothing is written beside the answer.
sed 's/"people": 1,/"people": 1, "closed": ["2027-01-01..2032-12-31"],/; /"closed": \["2027-03-10"\],/d' \
    examples/desk-shop.json >"$there/shut-shop.json"
sed "s|desk-shop.json|$there/shut-shop.json|; s|\"desk-|\"$PWD/examples/desk-|" examples/desk.json >"$there/shut.json"
gives 1 'the shop never opens' timetable "$there/shut.json" --trust-paths --svg "$there/shut.svg" --ics "$there/shut.ics"
check 'no drawing' "$(cat "$there/messages")" 'shut.svg: not written: there is no timetable'
check 'neither drawing nor calendar' "$(ls "$there" | grep -c '^shut\.[is]')" 0

# What --out writes, and that it writes no more.
# shellcheck disable=SC2086
"$coatwright" $desk --out "$there/out-1" >"$there/page" 2>&1
check 'the files of a plan' "$(ls -A "$there/out-1" | tr '\n' ' ')" 'plan.json sheet.html shopping.csv timetable.ics '
# shellcheck disable=SC2086
"$coatwright" $desk --json >"$there/plan.json" 2>&1
check 'plan.json is what --json prints' "$(cmp "$there/plan.json" "$there/out-1/plan.json" 2>&1)" ''
cp "$there/out-1/timetable.ics" "$there/before.ics"
# shellcheck disable=SC2086
"$coatwright" $desk --out "$there/out-1" >/dev/null 2>&1
check 'the same plan again leaves the calendar as it was' "$(cmp "$there/before.ics" "$there/out-1/timetable.ics" 2>&1)" ''

# Colour: on a terminal only, never with NO_COLOR.
escape=$(printf '\033')
on_terminal() { # on_terminal COMMAND: run by a terminal of its own
    python3 -c 'import pty, sys; sys.exit(pty.spawn(["sh", "-c", sys.argv[1]]) and 1)' "$1" </dev/null 2>&1
}
check 'no colour in a file' "$(grep -c "$escape" "$there/page")" 0
if python3 -c 'import pty; pty.openpty()' 2>/dev/null; then
    check 'colour on a terminal' "$(TERM=xterm on_terminal "$coatwright check examples/desk.json; $coatwright $desk")" "$escape[1m"
    check 'no colour with NO_COLOR' "$(NO_COLOR=1 TERM=xterm on_terminal "$coatwright $desk 2>/dev/null" | grep -c "$escape")" 0
    check 'no colour on a dumb terminal' "$(TERM=dumb on_terminal "$coatwright $desk 2>/dev/null" | grep -c "$escape")" 0
else
    echo "$0: colour on a terminal is not tried: this system lends no terminal"
fi

# Words of the solver's trade have no place on a finisher's screen.
for shown in tests/golden/*.out; do
    case $shown in
    *json*) ;;
    *) check "plain words in $shown" "$(grep -inwE 'nodes?|operations?|lags?|constraints?|proven' "$shown")" '' ;;
    esac
done

# Completion: what may stand next, as the scripts of the shells ask it; a tab comes before what it does, "/" is a file.
may() { # may NAME EXPECTED WORD...: the first words of the lines, of which the last WORD is being written
    name=$1 wanted=$2
    shift 2
    check "completion: $name" "$("$coatwright" --completion words "$@" 2>&1 | cut -f 1 | tr '\n' ' ')" "$wanted"
}
all=$("$coatwright" --help | sed -n '/^Commands/,/^$/s/^  \([a-z-]*\) .*/\1/p' | tr '\n' ' ')
may 'every command' "$all" ''
may 'a command' 'timetable today ' t
may 'an option' '--chance ' timetable --ch
may 'an option behind an operand' '--chance ' timetable desk.json --ch
may 'options of the program' '--help ' --he
may 'no option of another command' '' woods --ch
may 'the words of an option' 'metric us ' plan --units ''
may 'behind an equals sign' '--units=metric ' plan --units=m
may 'where the shell splits at it' 'metric ' plan --units = m
may 'a shell' 'bash zsh fish ' --completion ''
may 'a job' '/ ' area examples/des
may 'a second job' '/ ' today examples/desk.json ''
may 'no second job' '' area examples/desk.json ''
may 'a folder' '/ ' plan desk.json --out ''
may 'nothing for a moment' '' plan --now ''
may 'a finish' 'shellac-dewaxed shellac-primer shellac-waxed ' finishes shellac
may 'a finish or a job' 'danish-oil / ' mix danish
may 'a finish of an option' 'paste-wax ' new cuts.csv --outside pas
may 'a step' 'top/oil/1b/apply top/oil/1b/flip top/oil/1f/apply ' skip examples/desk.json top/oil/1
may 'no step of no job' '' skip no-such.json ''
may 'people' 'Leonie Matthis ' today examples/staircase.json --person ''
check 'completion: finishes are those of the table' \
    "$("$coatwright" --completion words finishes '' | sort)" "$(ls "${COATWRIGHT_FINISHES:-finishes}" | sed -n 's/\.json$//p' | sort)"

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
