package main

import (
	_ "codeberg.org/go-pdf/fpdf"
	_ "fyne.io/fyne/v2/app"
	_ "fyne.io/fyne/v2/driver/desktop"
	_ "fyne.io/fyne/v2/driver/software"
	_ "fyne.io/fyne/v2/test"
	_ "fyne.io/fyne/v2/widget"
	_ "github.com/arran4/golang-ical"
	_ "github.com/bep/imagemeta"
	_ "github.com/gen2brain/heic"
	_ "github.com/go-json-experiment/json"
	_ "github.com/oklog/ulid/v2"
	_ "github.com/wcharczuk/go-chart/v2"
	_ "github.com/wcharczuk/go-chart/v2/drawing"
	_ "go.etcd.io/bbolt"
	_ "golang.org/x/image/draw"
	_ "golang.org/x/image/webp"
	_ "golang.org/x/image/font/opentype"
	_ "golang.org/x/sync/errgroup"
	_ "golang.org/x/text/language"
	_ "golang.org/x/term"
	_ "gonum.org/v1/gonum/optimize"
	_ "gonum.org/v1/gonum/stat/distuv"
	_ "gonum.org/v1/gonum/mat"
	_ "modernc.org/sqlite"
	_ "pgregory.net/rapid"
)

func main() {}
