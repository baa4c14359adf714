// Package complete writes scripts by which shells complete the words of a command line.
package complete

import (
	"fmt"
	"strings"
)

// A Command is one word that the program obeys, with what can stand after it.
type Command struct {
	Name, Summary string
	Flags         []Flag
	Words         []string // other than files; nil where files are taken
}

// A Flag is one flag of a command. Short is "" where it has one name alone.
type Flag struct {
	Long, Short string
	Value       bool     // a value follows
	Words       []string // the values that it takes, where they can be listed
}

// Shells are those that there is a script for.
func Shells() []string { return []string{"bash", "zsh", "fish", "powershell"} }

// Script returns the script of a shell for a program whose files end in ending. It
// reports false for a shell that it does not know.
func Script(shell, program, ending string, commands []Command) (string, bool) {
	write := map[string]func(program, ending string, commands []Command) string{
		"bash": bash, "zsh": zsh, "fish": fish, "powershell": powerShell,
	}[shell]
	if write == nil {
		return "", false
	}
	return write(program, ending, commands), true
}

// names returns a flag as it is written, the long form first.
func (f Flag) names() []string {
	names := []string{"--" + f.Long}
	if f.Short != "" {
		names = append(names, "-"+f.Short)
	}
	return names
}

// quoted puts a text in single quotes as shells of the Bourne family read it.
func quoted(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }

func list(words []string, quote func(string) string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = quote(w)
	}
	return strings.Join(out, " ")
}

func names(commands []Command) []string {
	list := make([]string, len(commands))
	for i, c := range commands {
		list[i] = c.Name
	}
	return list
}

func (c Command) flags() []string {
	var list []string
	for _, f := range c.Flags {
		list = append(list, f.names()...)
	}
	return list
}

func bash(program, ending string, commands []Command) string {
	var b strings.Builder
	fmt.Fprintf(&b, `# bash completion for %[1]s: put it where your bash finds its completions, or
#   source <(%[1]s complete bash)
_%[1]s_offer() {
  local word
  for word in "${@:2}"; do
    [[ $word == "$1"* ]] && COMPREPLY+=("$(printf %%q "$word")")
  done
}
_%[1]s() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} file
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    _%[1]s_offer "$word" %[2]s
    return
  fi
  case ${COMP_WORDS[1]}:$before in
`, program, list(names(commands), quoted))
	for _, c := range commands {
		for _, f := range c.Flags {
			for _, name := range f.names() {
				if len(f.Words) > 0 {
					fmt.Fprintf(&b, "  %s:%s) _%s_offer \"$word\" %s; return ;;\n", c.Name, name, program, list(f.Words, quoted))
				}
			}
		}
	}
	b.WriteString("  esac\n  case ${COMP_WORDS[1]}:$word in\n")
	for _, c := range commands {
		if len(c.Flags) > 0 {
			fmt.Fprintf(&b, "  %s:-*) _%s_offer \"$word\" %s; return ;;\n", c.Name, program, list(c.flags(), quoted))
		}
		if c.Words != nil {
			fmt.Fprintf(&b, "  %s:*) _%s_offer \"$word\" %s; return ;;\n", c.Name, program, list(c.Words, quoted))
		}
	}
	fmt.Fprintf(&b, `  esac
  compopt -o filenames 2>/dev/null
  while IFS= read -r file; do
    [[ -d $file || $file == *%[2]s || $before == -* ]] && COMPREPLY+=("$file")
  done < <(compgen -f -- "$word")
}
complete -F _%[1]s %[1]s
`, program, ending)
	return b.String()
}

func zsh(program, ending string, commands []Command) string {
	var b strings.Builder
	fmt.Fprintf(&b, `#compdef %[1]s
# zsh completion for %[1]s: put it as _%[1]s into a folder of $fpath, or
#   source <(%[1]s complete zsh)
_%[1]s() {
  if ((CURRENT == 2)); then
    local -a commands=(%[2]s)
    _describe command commands
    return
  fi
  case $words[2] in
`, program, list(summaries(commands), quoted))
	for _, c := range commands {
		fmt.Fprintf(&b, "  %s)\n    _arguments", c.Name)
		for _, f := range c.Flags {
			for _, name := range f.names() {
				what := name
				if f.Value {
					what += ":" + f.Long + ":"
					if len(f.Words) > 0 {
						what += "(" + list(f.Words, func(s string) string { return strings.ReplaceAll(s, " ", `\ `) }) + ")"
					} else {
						what += "_files"
					}
				}
				fmt.Fprintf(&b, " \\\n      %s", quoted("*"+what))
			}
		}
		what := "*:design:_files -g \"*" + ending + "(-.)\""
		if c.Words != nil {
			what = "1:word:(" + strings.Join(c.Words, " ") + ")"
		}
		fmt.Fprintf(&b, " \\\n      '2:command:' %s\n    ;;\n", quoted(what))
	}
	fmt.Fprintf(&b, "  esac\n}\nif [[ $funcstack[1] == _%[1]s ]]; then\n  _%[1]s \"$@\"\nelse\n  compdef _%[1]s %[1]s\nfi\n", program)
	return b.String()
}

// summaries returns the commands with what they do, as zsh describes words.
func summaries(commands []Command) []string {
	list := make([]string, len(commands))
	for i, c := range commands {
		list[i] = c.Name + ":" + strings.ReplaceAll(c.Summary, ":", `\:`)
	}
	return list
}

func fish(program, ending string, commands []Command) string {
	var b strings.Builder
	quoted := func(s string) string {
		return "'" + strings.NewReplacer(`\`, `\\`, `'`, `\'`).Replace(s) + "'"
	}
	fmt.Fprintf(&b, `# fish completion for %[1]s: save it as ~/.config/fish/completions/%[1]s.fish, or
#   %[1]s complete fish | source
complete -c %[1]s -f
`, program)
	for _, c := range commands {
		fmt.Fprintf(&b, "complete -c %s -n __fish_use_subcommand -a %s -d %s\n", program, c.Name, quoted(c.Summary))
	}
	for _, c := range commands {
		when := quoted("__fish_seen_subcommand_from " + c.Name)
		for _, f := range c.Flags {
			fmt.Fprintf(&b, "complete -c %s -n %s -l %s", program, when, f.Long)
			if f.Short != "" {
				fmt.Fprintf(&b, " -s %s", f.Short)
			}
			switch {
			case len(f.Words) > 0:
				fmt.Fprintf(&b, " -x -a %s", quoted(list(f.Words, func(s string) string { return strings.ReplaceAll(s, " ", `\ `) })))
			case f.Value:
				b.WriteString(" -r -F")
			}
			b.WriteByte('\n')
		}
		words := "(__fish_complete_suffix " + ending + ")"
		if c.Words != nil {
			words = strings.Join(c.Words, " ")
		}
		fmt.Fprintf(&b, "complete -c %s -n %s -a %s\n", program, when, quoted(words))
	}
	return b.String()
}

func powerShell(program, ending string, commands []Command) string {
	var b strings.Builder
	quoted := func(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }
	array := func(words []string) string {
		return "@(" + strings.ReplaceAll(list(words, func(s string) string { return strings.ReplaceAll(quoted(s), " ", "\x00") }), " ", ", ") + ")"
	}
	of := func(words []string) string { return strings.ReplaceAll(array(words), "\x00", " ") }
	fmt.Fprintf(&b, `# PowerShell completion for %[1]s: put this line into your $PROFILE,
#   %[1]s complete powershell | Out-String | Invoke-Expression
Register-ArgumentCompleter -Native -CommandName %[1]s -ScriptBlock {
  param($word, $tree, $at)
  $commands = %[2]s
  $flags = @{
`, program, of(names(commands)))
	for _, c := range commands {
		fmt.Fprintf(&b, "    %s = %s\n", quoted(c.Name), of(c.flags()))
	}
	b.WriteString("  }\n  $values = @{\n")
	for _, c := range commands {
		for _, f := range c.Flags {
			for _, name := range f.names() {
				if len(f.Words) > 0 {
					fmt.Fprintf(&b, "    %s = %s\n", quoted(c.Name+" "+name), of(f.Words))
				}
			}
		}
		if c.Words != nil {
			fmt.Fprintf(&b, "    %s = %s\n", quoted(c.Name), of(c.Words))
		}
	}
	fmt.Fprintf(&b, `  }
  $said = @($tree.CommandElements | ForEach-Object { $_.ToString() })
  $before = @($said | Where-Object { $_ -ne $word })
  $command = if ($before.Count -gt 1) { $before[1] } else { '' }
  $offered = if ($command -eq '') { $commands }
    elseif ($values.ContainsKey("$command $($before[-1])")) { $values["$command $($before[-1])"] }
    elseif ($word.StartsWith('-')) { $flags[$command] }
    elseif ($values.ContainsKey($command)) { $values[$command] }
    else { Get-ChildItem -Name -Path "$word*" | Where-Object { $_.EndsWith('%s') } }
  $offered | Where-Object { $_ -like "$word*" } | ForEach-Object {
    $text = if ($_ -match '\s') { "'$_'" } else { $_ }
    [System.Management.Automation.CompletionResult]::new($text, $_, 'ParameterValue', $_)
  }
}
`, ending)
	return b.String()
}
