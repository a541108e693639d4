package casefile

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"rimclear/assets"
)

func TestFilesFromWindowsAreReadAlike(t *testing.T) {
	data, err := Encode(kept(t, walked(5)))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range append(assets.Cases(), assets.Sample{Name: "own", Data: data}) {
		want, err := Decode(file.Data)
		if err != nil {
			t.Fatal(err)
		}
		crlf := bytes.ReplaceAll(file.Data, []byte("\n"), []byte("\r\n"))
		for name, data := range map[string][]byte{"BOM": append([]byte("\ufeff"), file.Data...), "CRLF": crlf, "both": append([]byte("\ufeff"), crlf...)} {
			got, err := Decode(data)
			if err != nil || !got.Same(want) {
				t.Errorf("%s with %s: same %v, %v", file.Name, name, got.Same(want), err)
			}
		}
	}
}

func TestLinesAreCountedInFilesFromWindows(t *testing.T) {
	_, err := Decode([]byte("\ufeff{\r\n\"format\": \"rimclear-case\",\r\n\"version\": 2,\r\n\"side\": \"up\",\r\n\"designs\": [{}]}"))
	if err == nil || !strings.Contains(err.Error(), "line 4: side") {
		t.Errorf("error %v, want line 4", err)
	}
}

func TestWhatOtherProgramsMakeOfAFileIsRefusedWithAReason(t *testing.T) {
	var wide []byte
	for _, u := range utf16.Encode([]rune("\ufeff{\"format\": 1}")) {
		wide = append(wide, byte(u), byte(u>>8))
	}
	for name, c := range map[string]struct{ file, want string }{
		"UTF-16":        {string(wide), "it is in UTF-16"},
		"decimal comma": {"{\n\"format\":\"rimclear-case\",\"version\":2,\n\"flexion_deg\": 3,5}", "line 3: must be JSON: invalid character '5' looking for beginning of object key string; a number must have a decimal point"},
		"curly quotes":  {"{\n“format”: 1}", "line 2: must be JSON: invalid character 'â' looking for beginning of object key string; text must stand in plain quotation marks"},
		"single quotes": {"{'format': 1}", "plain quotation marks"},
		"Latin-1":       {"{\"label\": \"H\xfcfte\"}", "line 1: must be text in UTF-8"},
		"zip":           {"PK\x03\x04", "must be JSON"},
	} {
		_, err := Decode([]byte(c.file))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", name, err, c.want)
		}
	}
}

func TestAFileMadeToTakeForeverDoesNot(t *testing.T) {
	head := `{"format":"rimclear-case","version":2,`
	for name, part := range map[string]string{
		"designs":    `"designs":[` + strings.Repeat("1,", 1<<20) + `1]}`,
		"motions":    `"motions":[` + strings.Repeat("1,", 1<<20) + `1],"designs":[{}]}`,
		"recordings": `"recordings":[` + strings.Repeat("1,", 1<<20) + `1],"designs":[{}]}`,
		"samples":    `"recordings":[{"time_s":[` + strings.Repeat("1,", 1<<20) + `1]}],"designs":[{}]}`,
		"fields":     strings.Repeat(`"a":0,`, 1<<18) + `"designs":[{}]}`,
		"questions":  `"weighing":{` + strings.Repeat(`"a":0,`, 1<<18) + `"a":0},"designs":[{}]}`,
		"deep":       `"x":` + strings.Repeat("[", 9000) + strings.Repeat("]", 9000) + `,"designs":[3]}`,
	} {
		start := time.Now()
		_, err := Decode([]byte(head + part))
		if took := time.Since(start); err == nil || took > 20*time.Second || len(err.Error()) > 1<<20 {
			t.Errorf("%s: %v after %v", name, fmt.Sprintf("%.200v", err), took)
		}
	}
}
