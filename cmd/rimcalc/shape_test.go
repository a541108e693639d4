package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// shaped are commands that answer about a case, with options that keep them
// short.
var shaped = map[string][]string{
	"limits":     nil,
	"envelope":   {"--slice", "adduction_rotation", "--step", "30"},
	"target":     {"--motion", "low_chair", "--map"},
	"placement":  {"--motion", "low_chair", "--placements", "64", "--no-best"},
	"compare":    {"--motion", "low_chair", "--no-share"},
	"activities": nil,
	"check":      {"-"},
}

var snake = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)

// keysOf lists the keys of a JSON value at any depth, those of cases left out.
func keysOf(v any, at string) []string {
	var list []string
	switch v := v.(type) {
	case map[string]any:
		for key, x := range v {
			list = append(list, key)
			if key != "case" {
				list = append(list, keysOf(x, at+"."+key)...)
			}
		}
	case []any:
		for i, x := range v {
			list = append(list, keysOf(x, fmt.Sprintf("%s[%d]", at, i))...)
		}
	}
	return list
}

func TestEveryJSONSaysWhatItIsAndHasPlainKeys(t *testing.T) {
	for command, options := range shaped {
		r := calc(t, demoCase(), append([]string{command, "--json"}, options...)...)
		var got map[string]any
		if err := json.Unmarshal([]byte(r.out), &got); err != nil || r.code != fine {
			t.Errorf("%s: code %d, %s, %v", command, r.code, r.errs, err)
			continue
		}
		if got["format"] != "rimclear-"+command || got["version"] != 1.0 || !strings.Contains(fmt.Sprint(got["caution"]), "not a medical device") {
			t.Errorf("%s is %v, version %v, %v", command, got["format"], got["version"], got["caution"])
		}
		for _, key := range keysOf(got, "") {
			if !snake.MatchString(key) {
				t.Errorf("%s has a key %q", command, key)
			}
		}
	}
}

func TestEveryCSVHasPlainColumnsThatDoNotDependOnTheCase(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and what it asks is raced elsewhere")
	}
	for command, options := range shaped {
		header := ""
		for _, which := range [][]string{nil, {"--sample", "left-hip"}, {"--sample", "stemmed-and-resurfacing"}} {
			args := append([]string{command, "--csv"}, options...)
			if command != "check" {
				args = append(args, which...)
			}
			r := calc(t, strings.Replace(demoCase(), "{", `{"shoe_size": 9,`, 1), args...)
			rows, err := csv.NewReader(strings.NewReader(r.out)).ReadAll()
			if err != nil || r.code != fine || len(rows) < 2 {
				t.Errorf("%v: code %d, %s, %d rows, %v", args, r.code, r.errs, len(rows), err)
				continue
			}
			if now := strings.Join(rows[0], ","); header == "" {
				header = now
			} else if header != now {
				t.Errorf("%v has columns\n%s\nand before\n%s", args, now, header)
			}
			seen := map[string]bool{}
			for _, name := range rows[0] {
				if !snake.MatchString(name) || seen[name] {
					t.Errorf("%v has a column %q", args, name)
				}
				seen[name] = true
			}
			if rows[0][len(rows[0])-1] != "caution" {
				t.Errorf("%v ends with the column %q", args, rows[0][len(rows[0])-1])
			}
		}
	}
}
