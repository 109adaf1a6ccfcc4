package words

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// howWords begin what says how, where or until when something is done, and no longer what.
var howWords = []string{"about", "according", "after", "around", "as", "at", "before", "by", "carefully", "for",
	"if", "in", "on", "once", "over", "per", "so", "that", "then", "through", "till", "under", "until", "using", "when",
	"where", "which", "while", "with", "without"}

// opens are words behind which more has to come.
var opens = []string{"a", "an", "and", "into", "of", "or", "the", "to"}

// Brief is what is done, without how: "Sweat the leeks" of "Sweat the leeks in the butter for 10 minutes". What is no
// longer than most stands as it is.
func Brief(do string, most int) string {
	do = strings.TrimRight(strings.Join(strings.Fields(do), " "), " .!;:,")
	if utf8.RuneCountInString(do) <= most {
		return do
	}
	if open, end := strings.Index(do, " ("), strings.Index(do, ")"); open > 0 && end > open {
		return Brief(do[:open]+do[end+1:], most)
	}
	if what := behindVessel(do); what != "" {
		return Brief(Upper(what), most)
	}
	if where, what, found := strings.Cut(do, ", "); found { // "In a large pan, heat the oil"
		first, _, _ := strings.Cut(where, " ")
		if first = strings.ToLower(first); slices.Contains(howWords, first) || first == "meanwhile" {
			return Brief(Upper(what), most)
		}
	}
	if head, list, found := strings.Cut(do, ": "); found && strings.Contains(list, ", ") && !strings.Contains(head, ",") {
		for all := strings.Split(list, ", "); len(all) > 1; { // "Get ready: onions, leeks…"
			all = all[:len(all)-1]
			if text := head + ": " + strings.Join(all, ", ") + "…"; utf8.RuneCountInString(text) <= most {
				return text
			}
		}
	}
	words, end := strings.Fields(do), 0
	for i, w := range words {
		end = i + 1
		if i > 1 && slices.Contains(howWords, strings.ToLower(strings.Trim(w, ",;:()"))) {
			end = i
			break
		}
		if last := w[len(w)-1]; last == ';' || last == '.' || last == ':' || last == ',' && i > 1 {
			break
		}
	}
	for end > 1 && (slices.Contains(howWords, strings.ToLower(words[end-1])) ||
		slices.Contains(opens, strings.ToLower(words[end-1]))) { // "Chill for", "Reheat to a"
		end--
	}
	return shorten(words[:end], most)
}

// vesselWords end a phrase of where something is done.
var vesselWords = Set("pot pan bowl casserole dish tin saucepan skillet wok jug tray fat")

// behindVessel is what is done, of "In the same pot soften the onions, carrots and celery"; empty: nothing stands
// behind a vessel with which it begins.
func behindVessel(do string) string {
	all := strings.Fields(do)
	if first := strings.ToLower(all[0]); first != "in" && first != "into" {
		return ""
	}
	for i := 1; i < min(len(all)-1, mostWhere); i++ {
		if vesselWords[all[i]] {
			return strings.Join(all[i+1:], " ")
		}
		if strings.HasSuffix(all[i], ",") {
			return ""
		}
	}
	return ""
}

// mostWhere is of how many words a phrase of where something is done is at most: "in a large heavy oven-proof pan".
const mostWhere = 7

// shorten cuts words to a length, first before an "and" that joins two things to do.
func shorten(words []string, most int) string {
	text := strings.TrimRight(strings.Join(words, " "), " .!;:,")
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	for i := len(words) - 1; i > 1; i-- {
		if part := strings.TrimRight(strings.Join(words[:i], " "), " .!;:,"); words[i] == "and" &&
			utf8.RuneCountInString(part) <= most {
			return part
		}
	}
	for i := len(words) - 1; i > 0; i-- {
		part := strings.TrimRight(strings.Join(words[:i], " "), " .!;:,")
		if utf8.RuneCountInString(part) < most {
			return part + "…"
		}
	}
	r := []rune(text)
	return string(r[:max(1, most-1)]) + "…"
}
