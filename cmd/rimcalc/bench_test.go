package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"strings"
	"testing"
)

// BenchmarkSweep answers rows of the golden file by category, one worker.
func BenchmarkSweep(b *testing.B) {
	file, err := os.ReadFile(golden)
	if err != nil {
		b.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(file)), "\n")
	for _, category := range []string{"plain", "lip", "oval"} {
		var in bytes.Buffer
		in.WriteString(lines[0] + "\n")
		rows := 0
		for _, line := range lines[1:] {
			if strings.Split(line, ",")[1] == category {
				in.WriteString(line + "\n")
				rows++
			}
		}
		b.Run(category, func(b *testing.B) {
			for b.Loop() {
				s := &sweeper{in: bytes.NewReader(in.Bytes()), errs: io.Discard, workers: 1}
				if err := s.run(context.Background(), io.Discard); err != nil || s.bad > 0 {
					b.Fatal(err, s.bad)
				}
			}
			b.ReportMetric(float64(rows)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
		})
	}
}
