package control

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/figure"
)

// Brightness chooses between the two palettes.
type Brightness int

const (
	AsSystem Brightness = iota
	AlwaysLight
	AlwaysDark
)

// Theme is the look of the window, in the colours of figure.Palette so that
// screen and files agree.
type Theme struct {
	Brightness Brightness
	Scale      float32 // of the text; 0 means 1
}

// Bounds of the text's scale, and one step of it.
const (
	LeastScale, MostScale = 0.8, 1.8
	ScaleStep             = 0.1
)

var lightPalette, darkPalette = figure.Light(), figure.Dark()

// Restyle shows a window in the theme after this has changed: its menu, all that
// lies over it, and its content but for one part, which is left to the caller.
//
// Setting the theme with the toolkit's settings would do that too, but has it
// forget its fonts: reading them again takes a quarter of a second, and the last
// 32 of them, some 5 MB each, stay in memory.
func (t *Theme) Restyle(w fyne.Window, but fyne.CanvasObject) {
	// A theme put over anything has the toolkit forget the pictures of icons,
	// which it keeps by the names of their colours.
	container.NewThemeOverride(nothing, t)
	refresh(w.Content(), but)
	for _, o := range w.Canvas().Overlays().List() {
		o.Refresh()
	}
	if m := w.MainMenu(); m != nil {
		m.Refresh()
	}
}

// nothing is a widget that is never shown.
var nothing = widget.NewSeparator()

// refresh shows an object again, or what is in it but for a part.
func refresh(o, but fyne.CanvasObject) {
	if c, ok := o.(*fyne.Container); ok && slices.Contains(c.Objects, but) {
		for _, o := range c.Objects {
			refresh(o, but)
		}
		return
	}
	if o != but {
		o.Refresh()
	}
}

// Palette returns the colours for a variant the system asks for.
func (t *Theme) Palette(v fyne.ThemeVariant) *figure.Palette {
	if t.Brightness == AlwaysDark || t.Brightness == AsSystem && v == theme.VariantDark {
		return &darkPalette
	}
	return &lightPalette
}

func (t *Theme) scale() float32 {
	if t.Scale == 0 {
		return 1
	}
	return t.Scale
}

// Color returns the colour of a part of a widget.
func (t *Theme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	p := t.Palette(v)
	switch n {
	case theme.ColorNameBackground:
		return p.Panel
	case theme.ColorNameForeground:
		return p.Ink
	case theme.ColorNameInputBackground: // each thing that is drawn costs a tenth of a millisecond in software
		return transparent
	case theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		return p.Paper
	case theme.ColorNameInputBorder, theme.ColorNameScrollBar:
		return p.Axis
	case theme.ColorNameButton, theme.ColorNameDisabledButton, theme.ColorNameHeaderBackground:
		return figure.Mix(p.Panel, p.Ink, 0.07)
	case theme.ColorNameHover:
		return figure.Fade(p.Ink, 0.07)
	case theme.ColorNamePressed:
		return figure.Fade(p.Ink, 0.14)
	case theme.ColorNameSeparator:
		return figure.Mix(p.Panel, p.Ink, 0.13)
	case theme.ColorNamePlaceHolder:
		return p.Soft
	case theme.ColorNameDisabled: // also the colour of words of low importance
		return p.Soft
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return p.Designs[0].Text
	case theme.ColorNameFocus, theme.ColorNameSelection:
		return figure.Fade(p.Designs[0].Text, 0.35)
	case theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError:
		return p.Paper
	case theme.ColorNameError:
		return p.Contact.Text
	case theme.ColorNameWarning:
		return p.Close.Text
	case theme.ColorNameSuccess:
		return p.Free.Text
	}
	if p.Dark {
		return theme.DefaultTheme().Color(n, theme.VariantDark)
	}
	return theme.DefaultTheme().Color(n, theme.VariantLight)
}

// Font returns the toolkit's face of a style.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(s) }

// Icon returns the toolkit's icon of a name.
func (t *Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size returns a size; those of text and of what holds text follow the scale.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	k := t.scale()
	switch n {
	case theme.SizeNameText:
		return 13 * k
	case theme.SizeNameCaptionText:
		return 11 * k
	case theme.SizeNameSubHeadingText:
		return 14 * k
	case theme.SizeNameHeadingText:
		return 19 * k
	case theme.SizeNameInlineIcon:
		return 18 * k
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 5
	case theme.SizeNameInputRadius, theme.SizeNameButtonRadius, theme.SizeNameSelectionRadius:
		return 3
	}
	return theme.DefaultTheme().Size(n)
}

// look is what a widget of ours needs of the theme.
type look struct {
	*figure.Palette
	text, caption float32
	th            fyne.Theme
}

// themed is a widget that knows its theme, as all that extend
// widget.BaseWidget do.
type themed interface{ Theme() fyne.Theme }

// lookOf returns the look in force for a widget. Under a theme that is not
// ours, as in a test, it is the light one.
func lookOf(w themed) look {
	th := w.Theme()
	l := look{th: th, Palette: &lightPalette, text: th.Size(theme.SizeNameText), caption: th.Size(theme.SizeNameCaptionText)}
	own, ok := th.(*Theme)
	if !ok { // as under an override, which wraps it: the colours are the window's
		own, ok = fyne.CurrentApp().Settings().Theme().(*Theme)
	}
	if ok {
		l.Palette = own.Palette(fyne.CurrentApp().Settings().ThemeVariant())
	}
	return l
}

// onto shows the parts of a widget again if the widget's look has become another.
func (l *look) onto(w themed, parts ...fyne.CanvasObject) {
	was := *l
	*l = lookOf(w)
	if was.th == nil || was == *l {
		return
	}
	for _, o := range parts {
		o.Refresh()
	}
}
