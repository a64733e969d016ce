//go:build never

package main

import (
	_ "github.com/johnfercher/maroto/v2"
	_ "github.com/klauspost/compress/flate"
	_ "github.com/phpdave11/gofpdf"
	_ "github.com/rogpeppe/go-internal/testscript"
	_ "github.com/spf13/pflag"
	_ "github.com/stretchr/testify/require"
	_ "github.com/xuri/excelize/v2"
	_ "golang.org/x/term"
	_ "golang.org/x/text/unicode/norm"
	_ "gonum.org/v1/gonum/mat"
)
