package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"golang.org/x/term"

	"thawbook/calc/finding"
	"thawbook/calc/memo"
)

// progress tells how far a run is: a bar on a terminal, elsewhere a line now and then. A nil progress is silent.
type progress struct {
	out   io.Writer
	say   func(code string, args ...finding.Arg) string
	total int
	done  int
	bar   bool
	every time.Duration
	last  time.Time
	now   func() time.Time
}

const (
	barWidth  = 40
	barEvery  = 100 * time.Millisecond
	lineEvery = 5 * time.Second
)

// logSite writes a site's line, where it is asked for.
func (j *job) logSite(bar *progress, d done) {
	if !j.log {
		return
	}
	bar.clear()
	s, pdf := d.outcome.Summary, d.pdf.link()
	if pdf == "" {
		pdf = j.words.Say("run-log-no-pdf")
	}
	fmt.Fprintln(j.stderr, j.words.Say("run-log-site", finding.Words("site", s.SiteID), finding.Words("status", s.Status),
		finding.Words("zones", fmt.Sprint(s.Zones)), finding.Words("pdf", pdf)))
}

// logWork writes what the sites computed and what they shared, where it is asked for.
func (j *job) logWork() {
	if !j.log {
		return
	}
	work := j.engine.Work()
	for _, w := range []struct {
		of     string
		counts memo.Counts
	}{{"loads", work.Loads}, {"sections", work.Sections}, {"layouts", work.Layouts}, {"winters", work.Winters}} {
		fmt.Fprintln(j.stderr, j.words.Say("run-log-"+w.of, finding.Words("computed", fmt.Sprint(w.counts.Computed)), finding.Words("shared", fmt.Sprint(w.counts.Shared))))
	}
}

// newProgress begins to tell about so many sites.
func (j *job) newProgress(total int) *progress {
	if j.quiet {
		return nil
	}
	bar := isTerminal(j.stderr)
	every := lineEvery
	if bar {
		every = barEvery
	}
	return &progress{out: j.stderr, say: j.words.Say, total: total, bar: bar, every: every, last: time.Now(), now: time.Now}
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// step counts a site, and shows the count when it is time to.
func (p *progress) step() {
	if p == nil {
		return
	}
	p.done++
	if now := p.now(); now.Sub(p.last) >= p.every {
		p.last = now
		p.show()
	}
}

func (p *progress) show() {
	text := p.say("run-progress", finding.Words("done", fmt.Sprint(p.done)), finding.Words("total", fmt.Sprint(p.total)))
	if !p.bar {
		fmt.Fprintln(p.out, text)
		return
	}
	filled := barWidth * p.done / max(p.total, 1)
	fmt.Fprintf(p.out, "\r[%s%s] %s", strings.Repeat("=", filled), strings.Repeat(" ", barWidth-filled), text)
}

// clear takes the bar away before other lines are printed.
func (p *progress) clear() {
	if p != nil && p.bar {
		fmt.Fprint(p.out, "\r\033[K")
	}
}
