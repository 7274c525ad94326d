#!/bin/sh
# SPDX-License-Identifier: MIT
# Profiles of one's own from the command line: a section with all its keys, and a
# shop's prices from a spreadsheet. Nothing is written that has a fault, by half or unasked.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}"
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
HOME=$scratch/home
export HOME
unset XDG_DATA_HOME
mkdir "$HOME"
own=$HOME/.local/share/tankcost
failed=0
fault() { echo "$*"; failed=1; }

# try STATUS ARGUMENT...: what it prints goes to out, its faults to err.
try() {
    wanted=$1
    shift
    "$BUILD/tankcost" --profiles profiles "$@" >"$scratch/out" 2>"$scratch/err"
    status=$?
    [ $status -eq "$wanted" ] || fault "tankcost $*: ended with $status, not $wanted: $(cat "$scratch/out" "$scratch/err")"
}
says() { grep -qF -- "$1" "$scratch/out" "$scratch/err" || fault "does not say: $1; but: $(cat "$scratch/out" "$scratch/err")"; }

try 0 new region home currency=USD 'electricity=0.16 / kWh' 'water=2 / m3' 'room=20 C' 'sales-tax=7 %'
try 0 new shop high-street region=home delivery=12 delivery-free-from=90
try 0 new lid cut-36 'length=36 in' 'width=15 in' title='Cut to size; by Ann #2'
grep -q '^length = 36 in  # ' "$own/parts/lid-cut-36.ini" || fault "new: the key is not explained"
grep -q '^# life = ' "$own/parts/lid-cut-36.ini" || fault "new: the other keys are not there"
try 0 check
try 0 stock lid
says cut-36
try 1 new lid cut-36 'length=36 in' 'width=15 in'
says 'is there already'
try 1 new lid bad 'length=36'
says "[lid bad] length: '36' has no unit; write it in mm, cm, m, in or ft"
says "[lid bad]: has no 'width'; write it like 'width = 12 in'"
[ ! -e "$own/parts/lid-bad.ini" ] || fault "new: a section with a fault was written"
try 2 new lid bad 'lenght=36 in'
says "did you mean 'length'?"
try 2 new lids bad
says "did you mean 'lid'?"
try 2 new lid 'Bad name'
try 2 new lid bad length

printf 'kind,name,price,shortest,longest,power,efficacy\r\nlid,cut-36,25.00,,,,\r\ntank,20-long,39.99\r\nlight,bar-100,59,30 in,48 in,22 W,1.9 umol/J\r\n' >"$scratch/list.csv"
try 0 prices high-street "$scratch/list.csv"
says 'lid cut-36: not listed -> 25.00'
says '0 changed, 3 added, 0 as before; 1 new items'
[ ! -e "$own/shops/high-street.ini" ] || fault "prices: written without --yes"

if [ -e /dev/full ]; then
    "$BUILD/tankcost" prices high-street "$scratch/list.csv" --profiles profiles >/dev/full 2>"$scratch/err"
    [ $? -eq 3 ] && says 'standard output: No space left on device' || fault "prices to a full device"
fi

# A standard input that cannot be read: a folder.
"$BUILD/tankcost" prices high-street - --profiles profiles <. >"$scratch/out" 2>"$scratch/err"
[ $? -eq 3 ] && says 'standard input: cannot be read: Is a directory' || fault "prices from a folder"
try 0 prices high-street "$scratch/list.csv" --yes
try 0 check
try 0 prices high-street - --yes <"$scratch/list.csv"
says 'Nothing is to be written.'
printf '# mine\n' >>"$own/shops/high-street.ini"
printf 'name,kind,price\n20-long,tank,35 to 45\n' >"$scratch/list.csv"
try 0 prices high-street "$scratch/list.csv" --yes
says 'tank 20-long: 39.99 -> 35 to 45'
grep -q '^# mine' "$own/shops/high-street.ini" || fault "prices: a comment is lost"
grep -q 'cut-36 = 25.00' "$own/shops/high-street.ini" || fault "prices: what the list does not have is lost"
# Three things at one shop, by hand: 40 + 25 + 59 = 124 is brought for nothing from 90 on, and 7 % is added.
try 0 list --region home --setup planted-display --today 2026-01-10 --tank 20-long --set 'candidate 1/lid=none' \
    --set 'candidate 1/light=bar-100' --format csv
says '59.00'
cp "$own/shops/high-street.ini" "$scratch/before"

# bad TEXT FAULT: the list is refused with that fault, and nothing is written.
bad() {
    printf "$1" >"$scratch/list.csv"
    try 1 prices high-street "$scratch/list.csv" --yes
    says "$2"
    cmp -s "$own/shops/high-street.ini" "$scratch/before" || fault "prices: a list with a fault was written: $1"
}
head=name,kind,price
bad '' 'list.csv:1: the file is empty; its first line names the columns: name,kind,price'
bad 'name,price\n' "list.csv:1: there is no column 'kind'; the first line names the columns, like name,kind,price"
bad "$head,price\n" 'list.csv:1: price: the column is there twice'
bad "$head\n20-lnog,tank,30\n" "list.csv:2: name: there is no tank '20-lnog'; did you mean '20-long'?"
bad "$head\nfoo,tank,30\n" "list.csv:2: name: there is no tank 'foo'; columns with its facts would make it"
bad "$head\nMy Tank,tank,30\n" "list.csv:2: name: there is no tank 'my-tank'"
bad "$head\n(),tank,30\n" "list.csv:2: name: '()' is not a name"
bad 'name;kind;price\n20-long;tank;1.230,50\n' "list.csv:2: price: '1.230,50' has a comma in a number"
bad "$head\n20-long,fish,30\n" "list.csv:2: kind: 'fish' is not a kind of goods; write tank, stand, lid, light, filter, air-pump, heater or substrate"
bad "$head\n20-long,tank,1.200\n" "list.csv:2: price: '1.200' can be read in two ways; write '1200' or '1.20'"
bad "$head\n20-long,tank,\"1,200\"\n" "list.csv:2: price: '1,200' can be read in two ways; write '1200' or '1.20'"
bad "$head\n20-long,tank,\$30\n" "list.csv:2: price: '\$30': write the amount without '\$', like '89'"
bad "$head\n20-long,tank,30 EUR\n" "list.csv:2: price: '30 EUR' is in EUR, but amounts here are in USD"
bad "$head\n20-long,tank,\n" "list.csv:2: price: there is no price; write one, or leave the line out"
bad "$head\n20-long,tank,-3\n" "list.csv:2: price: '-3' is negative"
bad "$head\n20-long,tank,30\n20-long,tank,31\n" "list.csv:3: name: the tank '20-long' is there already, in line 2; remove one"
bad "$head,colour\n20-long,tank,30,red\n" "list.csv:2: colour: a tank has no such key"
bad "$head,lenght\nmine,tank,30,30 in\n" "list.csv:2: lenght: a tank has no such key; did you mean 'length'?"
bad "$head,length\n20-long,tank,30,31 in\n" "list.csv:2: length: the tank '20-long' is there already; leave this empty, or change its profile"
bad "$head,length,width\nbig,lid,20,40 in,13 in:\n" "list.csv:2: width: '13 in:': ':' is too much; write it like '12 in'"
bad "$head,length\nbig,lid,20,40 in\n" "list.csv:2: has no 'width'"
bad "$head,length,width\nbig,lid,20,\"40 in\nprice = 1\",13 in\n" "list.csv:2: length: a profile cannot hold this: write it on one line"
bad "$head\n20-long,tank,30,x\n" 'list.csv:2: there are more fields than columns; put a comma in quotes'
bad "$head\n\"20-long\"x,tank,30\n" 'list.csv:2: text follows a closing quote; double a quote that is part of a field'
bad "$head\n20-long,tank,\"30\n" 'list.csv:2: a quote is opened and not closed; double a quote that is part of a field'
try 1 prices high-street "$scratch/nowhere.csv"
try 2 prices hihg-street "$scratch/list.csv"
says "did you mean 'high-street'?"
try 2 prices high-street
# 200 prices, one command.
{
    echo name,kind,price,length,width,height
    i=1
    while [ $i -le 200 ]; do
        echo "t-$i,tank,$i.50,30 in,12 in,16 in"
        i=$((i + 1))
    done
} >"$scratch/list.csv"
try 0 prices high-street "$scratch/list.csv" --yes
says '0 changed, 200 added, 0 as before; 200 new items'
try 0 check
# As spreadsheets save them where the comma is the decimal sign: a mark of UTF-8, semicolons, CR LF, quotes.
printf '\357\273\277name;kind;price;length;width;height\r\n"Used tank; 36 in";tank;"1230,5";36 in;15 in;16 in\r\n20 Long;tank;31,25;;;\r\n' >"$scratch/list.csv"
try 0 prices high-street - --yes <"$scratch/list.csv"
says "tank used-tank-36-in ('Used tank; 36 in'): not listed -> 1230.5 (a new item)"
says "tank 20-long ('20 Long'): "
grep -q '20-long *= 31.25' "$own/shops/high-street.ini" || fault "prices: a decimal comma is not taken"
try 0 check
exit "$failed"
