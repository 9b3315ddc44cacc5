<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de_DE" sourcelanguage="en">
<context>
    <name>AboutDialog</name>
    <message>
        <source>&amp;Copy as text</source>
        <translation>Als Text &amp;kopieren</translation>
    </message>
    <message>
        <source>About Fanlight</source>
        <translation>Über Fanlight</translation>
    </message>
    <message>
        <source>Design small text panels for Modbus devices, test them on the device or a simulation of it, and hand them over.</source>
        <translation>Kleine Textpanels für Modbus-Geräte entwerfen, am Gerät oder an dessen Simulation prüfen und übergeben.</translation>
    </message>
    <message>
        <source>Licence</source>
        <translation>Lizenz</translation>
    </message>
    <message>
        <source>Package</source>
        <translation>Paket</translation>
    </message>
    <message>
        <source>Packages that Fanlight uses, with their licences</source>
        <translation>Pakete, die Fanlight nutzt, mit ihren Lizenzen</translation>
    </message>
    <message>
        <source>Version</source>
        <translation>Version</translation>
    </message>
    <message>
        <source>not stated</source>
        <translation>nicht angegeben</translation>
    </message>
</context>
<context>
    <name>ActivityStrip</name>
    <message>
        <source>Each mark is one transaction, the newest on the right. Stroke: good read. Dot: good write. Cross: fault, described beside it. Two slanted strokes: no answer for one second or more. Left and Right step through them; Enter or a double click shows the bytes.</source>
        <translation>Jede Marke ist eine Transaktion, die neueste rechts. Strich: gut gelesen. Punkt: gut geschrieben. Kreuz: Störung, daneben beschrieben. Zwei Schrägstriche: eine Sekunde oder länger keine Antwort. Links und Rechts gehen sie durch; Eingabe oder Doppelklick zeigt die Bytes.</translation>
    </message>
    <message>
        <source>Line strip</source>
        <translation>Leitungsstreifen</translation>
    </message>
    <message>
        <source>Line: not connected</source>
        <translation>Leitung: nicht verbunden</translation>
    </message>
    <message>
        <source>answers good: {good}, faults: {faults}</source>
        <translation>Antworten gut: {good}, Fehler: {faults}</translation>
    </message>
    <message>
        <source>just now</source>
        <translation>gerade eben</translation>
    </message>
    <message>
        <source>no answer for {seconds} s: {reason}</source>
        <translation>{seconds} s lang keine Antwort: {reason}</translation>
    </message>
    <message>
        <source>no answer in time for {seconds} s: {reason}</source>
        <translation>{seconds} s lang keine rechtzeitige Antwort: {reason}</translation>
    </message>
    <message>
        <source>not connected</source>
        <translation>nicht verbunden</translation>
    </message>
    <message>
        <source>nothing yet</source>
        <translation>noch nichts</translation>
    </message>
    <message>
        <source>{seconds} s ago</source>
        <translation>vor {seconds} s</translation>
    </message>
    <message>
        <source>{what}, {ms} ms</source>
        <translation>{what}, {ms} ms</translation>
    </message>
</context>
<context>
    <name>AlarmBox</name>
    <message>
        <source>&amp;Acknowledge the alarm</source>
        <translation>Alarm &amp;quittieren</translation>
    </message>
    <message>
        <source>Acknowledge</source>
        <translation>Quittieren</translation>
    </message>
    <message>
        <source>Alarm</source>
        <translation>Alarm</translation>
    </message>
    <message>
        <source>an alarm of a recording</source>
        <translation>ein Alarm aus einer Aufzeichnung</translation>
    </message>
    <message>
        <source>no alarm</source>
        <translation>kein Alarm</translation>
    </message>
    <message>
        <source>no alarm to acknowledge</source>
        <translation>kein Alarm zu quittieren</translation>
    </message>
    <message>
        <source>{count} more</source>
        <translation>{count} weitere</translation>
    </message>
</context>
<context>
    <name>ArmingBadge</name>
    <message>
        <source>ARMED</source>
        <translation>FREIGEGEBEN</translation>
    </message>
    <message>
        <source>Disarmed itself</source>
        <translation>Selbst gesperrt</translation>
    </message>
    <message>
        <source>Keys write to {lines}</source>
        <translation>Tasten schreiben auf {lines}</translation>
    </message>
    <message>
        <source>Not connected</source>
        <translation>Nicht verbunden</translation>
    </message>
    <message>
        <source>Real line, locked</source>
        <translation>Leitung gesperrt</translation>
    </message>
    <message>
        <source>Simulated</source>
        <translation>Simuliert</translation>
    </message>
    <message>
        <source>keys move the machine</source>
        <translation>Tasten bewegen die Maschine</translation>
    </message>
    <message>
        <source>nothing can be written</source>
        <translation>nichts kann geschrieben werden</translation>
    </message>
    <message>
        <source>nothing real can move</source>
        <translation>nichts Echtes kann sich bewegen</translation>
    </message>
    <message>
        <source>only stops are written</source>
        <translation>schreibt nur noch Stopps</translation>
    </message>
    <message>
        <source>reading only</source>
        <translation>es wird nur gelesen</translation>
    </message>
</context>
<context>
    <name>ArmingDialog</name>
    <message>
        <source>Arm these lines?</source>
        <translation>Schreiben auf diese Leitungen freigeben?</translation>
    </message>
    <message>
        <source>Arm this line?</source>
        <translation>Schreiben auf diese Leitung freigeben?</translation>
    </message>
    <message>
        <source>Arm: allow Fanlight to write</source>
        <translation>Schreiben freigeben</translation>
    </message>
    <message>
        <source>Hold to arm</source>
        <translation>Zum Freigeben gedrückt halten</translation>
    </message>
    <message>
        <source>Lines to arm</source>
        <translation>Leitungen, auf die geschrieben werden darf</translation>
    </message>
    <message>
        <source>Now hold the button or the space bar until the bar is full.</source>
        <translation>Nun die Schaltfläche oder die Leertaste halten, bis der Balken voll ist.</translation>
    </message>
    <message>
        <source>Once armed, panel keys write to a real line.</source>
        <translation>Nach der Freigabe schreiben die Tasten des Panels auf eine echte Leitung.</translation>
    </message>
    <message>
        <source>The project has changed since it was last armed on this computer.</source>
        <translation>Das Projekt hat sich geändert, seit auf diesem Rechner zuletzt freigegeben wurde.</translation>
    </message>
    <message>
        <source>This project &amp;writes without a key press:</source>
        <translation>Dieses Projekt &amp;schreibt ohne Tastendruck:</translation>
    </message>
    <message>
        <source>This project can start motion by itself, without a key press: see the list above.</source>
        <translation>Dieses Projekt kann von selbst, ohne Tastendruck, eine Bewegung auslösen: siehe die Liste oben.</translation>
    </message>
    <message>
        <source>This project writes only when a key is pressed.</source>
        <translation>Dieses Projekt schreibt nur auf Tastendruck.</translation>
    </message>
    <message>
        <source>{count} left to confirm.</source>
        <translation>Noch {count} zu bestätigen.</translation>
    </message>
</context>
<context>
    <name>Arranging</name>
    <message>
        <source>Align left</source>
        <translation>Links ausrichten</translation>
    </message>
    <message>
        <source>Align right</source>
        <translation>Rechts ausrichten</translation>
    </message>
    <message>
        <source>Centre</source>
        <translation>Zentrieren</translation>
    </message>
    <message>
        <source>Change field</source>
        <translation>Feld ändern</translation>
    </message>
    <message>
        <source>Copy cells</source>
        <translation>Zellen kopieren</translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation>Duplizieren</translation>
    </message>
    <message>
        <source>Fit the width</source>
        <translation>Breite anpassen</translation>
    </message>
    <message>
        <source>Make equally wide</source>
        <translation>Gleich breit machen</translation>
    </message>
    <message>
        <source>Move cells</source>
        <translation>Zellen verschieben</translation>
    </message>
    <message>
        <source>Move field</source>
        <translation>Feld verschieben</translation>
    </message>
    <message>
        <source>Move fields</source>
        <translation>Felder verschieben</translation>
    </message>
    <message>
        <source>Place field</source>
        <translation>Feld platzieren</translation>
    </message>
    <message>
        <source>Resize field</source>
        <translation>Feldgröße ändern</translation>
    </message>
    <message>
        <source>Select a field or cells to duplicate them.</source>
        <translation>Zum Duplizieren ein Feld oder Zellen auswählen.</translation>
    </message>
    <message>
        <source>Select a field or cells to move them: put the cursor on the field.</source>
        <translation>Zum Verschieben ein Feld oder Zellen auswählen: den Cursor auf das Feld setzen.</translation>
    </message>
    <message>
        <source>Select a field to fit its width: put the cursor on it.</source>
        <translation>Zum Anpassen der Breite ein Feld auswählen: den Cursor darauf setzen.</translation>
    </message>
    <message>
        <source>Select one field to change its width: put the cursor on it.</source>
        <translation>Zum Ändern der Breite ein Feld auswählen: den Cursor darauf setzen.</translation>
    </message>
    <message>
        <source>Select two or more fields to make them equally wide: Ctrl+click them.</source>
        <translation>Für gleiche Breite zwei oder mehr Felder auswählen: mit Strg anklicken.</translation>
    </message>
    <message>
        <source>There is no room for a copy on this screen: text or fields are in the way.</source>
        <translation>Auf diesem Bild ist kein Platz für eine Kopie: Text oder Felder sind im Weg.</translation>
    </message>
</context>
<context>
    <name>ArrivalsDialog</name>
    <message>
        <source>&amp;Use those of this project</source>
        <translation>Die &amp;dieses Projekts verwenden</translation>
    </message>
    <message>
        <source>Differences</source>
        <translation>Unterschiede</translation>
    </message>
    <message>
        <source>Differs in</source>
        <translation>Unterschied in</translation>
    </message>
    <message>
        <source>In this project</source>
        <translation>Im Projekt</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Pasted</source>
        <translation>Eingefügt</translation>
    </message>
    <message>
        <source>Same names, different definitions</source>
        <translation>Gleiche Namen, unterschiedliche Definitionen</translation>
    </message>
    <message>
        <source>The pasted fields use signal names that exist here with other definitions. Which should be used?</source>
        <translation>Die eingefügten Felder verwenden Signalnamen, die es hier mit anderer Definition gibt. Welche sollen gelten?</translation>
    </message>
    <message>
        <source>Use the pasted ones under &amp;new names</source>
        <translation>Eingefügte &amp;neu benennen</translation>
    </message>
    <message>
        <source>device &apos;{name}&apos;</source>
        <translation>Gerät „{name}“</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;</source>
        <translation>Signal „{name}“</translation>
    </message>
</context>
<context>
    <name>AskPage</name>
    <message>
        <source>A date is written as year-month-day, such as 2027-03-31.</source>
        <translation>Ein Datum wird als Jahr-Monat-Tag geschrieben, etwa 2027-03-31.</translation>
    </message>
    <message>
        <source>Before the machine may move</source>
        <translation>Bevor sich die Maschine bewegen darf</translation>
    </message>
    <message>
        <source>Calibrated until</source>
        <translation>Kalibriert bis</translation>
    </message>
    <message>
        <source>Cannot tell</source>
        <translation>Unklar</translation>
    </message>
    <message>
        <source>Done</source>
        <translation>Erledigt</translation>
    </message>
    <message>
        <source>Enter value</source>
        <translation>Übernehmen</translation>
    </message>
    <message>
        <source>Expected: {what}</source>
        <translation>Erwartet: {what}</translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>Measure</source>
        <translation>Messen</translation>
    </message>
    <message>
        <source>No</source>
        <translation>Nein</translation>
    </message>
    <message>
        <source>Not measured</source>
        <translation>Nicht gemessen</translation>
    </message>
    <message>
        <source>Not possible</source>
        <translation>Nicht möglich</translation>
    </message>
    <message>
        <source>Only you can see this</source>
        <translation>Das sieht nur ein Mensch</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>Remark (goes into the record)</source>
        <translation>Bemerkung (steht im Protokoll)</translation>
    </message>
    <message>
        <source>Serial number</source>
        <translation>Seriennummer</translation>
    </message>
    <message>
        <source>The value is missing, or it is no number.</source>
        <translation>Der Wert fehlt oder ist keine Zahl.</translation>
    </message>
    <message>
        <source>To be done by hand</source>
        <translation>Von Hand zu erledigen</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Which instrument was it? The step is not tested without it.</source>
        <translation>Welches Messgerät war es? Ohne diese Angabe gilt der Schritt als nicht geprüft.</translation>
    </message>
    <message>
        <source>Yes</source>
        <translation>Ja</translation>
    </message>
    <message>
        <source>such as 2027-03-31, or empty</source>
        <translation>etwa 2027-03-31, oder leer</translation>
    </message>
</context>
<context>
    <name>BadCells</name>
    <message>
        <source>Changed rows: {changed}. New rows: {added}.</source>
        <translation>Geänderte Zeilen: {changed}. Neue Zeilen: {added}.</translation>
    </message>
    <message>
        <source>New rows skipped: {count}.</source>
        <translation>Übersprungene neue Zeilen: {count}.</translation>
    </message>
</context>
<context>
    <name>BadCellsDialog</name>
    <message>
        <source>&amp;Copy the list</source>
        <translation>Liste &amp;kopieren</translation>
    </message>
    <message>
        <source>Accept the &amp;rest</source>
        <translation>&amp;Rest übernehmen</translation>
    </message>
    <message>
        <source>Cells that cannot be accepted</source>
        <translation>Zellen, die nicht übernommen werden können</translation>
    </message>
    <message>
        <source>Cells that cannot be accepted: {count}</source>
        <translation>Zellen, die nicht übernommen werden können: {count}</translation>
    </message>
    <message>
        <source>Column</source>
        <translation>Spalte</translation>
    </message>
    <message>
        <source>New rows skipped: {count}. A new row with a cell that cannot be accepted is not added, because the cell would get a value that nobody chose.</source>
        <translation>Übersprungene neue Zeilen: {count}. Eine neue Zeile mit einer Zelle, die nicht übernommen werden kann, wird nicht angelegt, denn die Zelle bekäme einen Wert, den niemand gewählt hat.</translation>
    </message>
    <message>
        <source>Only the first {count} are listed.</source>
        <translation>Nur die ersten {count} sind aufgeführt.</translation>
    </message>
    <message>
        <source>Reason</source>
        <translation>Grund</translation>
    </message>
    <message>
        <source>Row</source>
        <translation>Zeile</translation>
    </message>
    <message>
        <source>Text</source>
        <translation>Text</translation>
    </message>
    <message>
        <source>The rest can be accepted: changed rows: {changed}, new rows: {added}</source>
        <translation>Der Rest kann übernommen werden: geänderte Zeilen: {changed}, neue Zeilen: {added}</translation>
    </message>
    <message>
        <source>There is nothing else to accept.</source>
        <translation>Sonst gibt es nichts zu übernehmen.</translation>
    </message>
</context>
<context>
    <name>Beginning</name>
    <message>
        <source>Next: Design (Ctrl+1) shows how this is made; Ctrl+N makes a panel for a drive of yours.</source>
        <translation>Als Nächstes: Der Entwurf (Strg+1) zeigt, wie dies gemacht ist; Strg+N legt ein Panel für einen eigenen Antrieb an.</translation>
    </message>
    <message>
        <source>make or open a project first</source>
        <translation>zuerst ein Projekt anlegen oder öffnen</translation>
    </message>
</context>
<context>
    <name>BehaviourView</name>
    <message>
        <source>Add</source>
        <translation>Hinzufügen</translation>
    </message>
    <message>
        <source>After time without a key: show a screen</source>
        <translation>Nach einer Zeit ohne Taste: ein Bild zeigen</translation>
    </message>
    <message>
        <source>All {count}</source>
        <translation>Alle {count}</translation>
    </message>
    <message>
        <source>Copy as text</source>
        <translation>Als Text kopieren</translation>
    </message>
    <message>
        <source>Delete</source>
        <translation>Löschen</translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation>Duplizieren</translation>
    </message>
    <message>
        <source>Filter the sentences</source>
        <translation>Sätze filtern</translation>
    </message>
    <message>
        <source>Find a key, screen or signal</source>
        <translation>Taste, Bild oder Signal suchen</translation>
    </message>
    <message>
        <source>Keys and screen changes</source>
        <translation>Tasten und Bildwechsel</translation>
    </message>
    <message>
        <source>Move down</source>
        <translation>Nach unten</translation>
    </message>
    <message>
        <source>Move up</source>
        <translation>Nach oben</translation>
    </message>
    <message>
        <source>Screen {name} and everywhere</source>
        <translation>Bild {name} und überall</translation>
    </message>
    <message>
        <source>When a condition becomes true: do something</source>
        <translation>Sobald eine Bedingung zutrifft: etwas tun</translation>
    </message>
    <message>
        <source>While a condition is true: show a screen</source>
        <translation>Solange eine Bedingung zutrifft: ein Bild zeigen</translation>
    </message>
</context>
<context>
    <name>BenchWorkspace</name>
    <message>
        <source>&amp;Operate the panel</source>
        <translation>&amp;Panel bedienen</translation>
    </message>
    <message>
        <source>&amp;Set a value of the device</source>
        <translation>Wert des Geräts &amp;setzen</translation>
    </message>
    <message>
        <source>Click a key, or use the keyboard: arrows, Enter, Esc; the others by F1, F2 and so on.</source>
        <translation>Taste anklicken, oder mit der Tastatur: Pfeile, Eingabe, Esc; die übrigen mit F1, F2 usw.</translation>
    </message>
    <message>
        <source>Close that window to have every transaction here.</source>
        <translation>Jenes Fenster schließen, um hier jede Übertragung zu sehen.</translation>
    </message>
    <message>
        <source>Devices</source>
        <translation>Geräte</translation>
    </message>
    <message>
        <source>Filter the readin&amp;gs</source>
        <translation>Werte &amp;filtern</translation>
    </message>
    <message>
        <source>Keys change screens, but write nothing: writing is locked.</source>
        <translation>Tasten wechseln Bilder, schreiben aber nichts: Das Schreiben ist gesperrt.</translation>
    </message>
    <message>
        <source>Keys write to the real line. No key here is an emergency stop.</source>
        <translation>Tasten schreiben auf die echte Leitung. Keine Taste hier ist ein Not-Halt.</translation>
    </message>
    <message>
        <source>Line: every transaction</source>
        <translation>Leitung: jede Übertragung</translation>
    </message>
    <message>
        <source>On the real line {deeds}. No key here is an emergency stop.</source>
        <translation>An der echten Leitung: {deeds}. Keine Taste hier ist ein Not-Halt.</translation>
    </message>
    <message>
        <source>Only readings that are &amp;not good</source>
        <translation>Nur Werte, die &amp;nicht gut sind</translation>
    </message>
    <message>
        <source>Panel</source>
        <translation>Panel</translation>
    </message>
    <message>
        <source>Panel and readings</source>
        <translation>Panel und Werte</translation>
    </message>
    <message>
        <source>Readings</source>
        <translation>Werte</translation>
    </message>
    <message>
        <source>Simulated d&amp;evices</source>
        <translation>Simulierte &amp;Geräte</translation>
    </message>
    <message>
        <source>Switch ra&amp;w number format</source>
        <translation>Ro&amp;hwertformat wechseln</translation>
    </message>
    <message>
        <source>The keys work once the line is connected.</source>
        <translation>Die Tasten wirken, sobald die Leitung verbunden ist.</translation>
    </message>
    <message>
        <source>The line has a window of its own</source>
        <translation>Die Leitung hat ein eigenes Fenster</translation>
    </message>
    <message>
        <source>Value &amp;looks wrong…</source>
        <translation>Wert sieht fa&amp;lsch aus…</translation>
    </message>
    <message>
        <source>Views</source>
        <translation>Ansichten</translation>
    </message>
    <message>
        <source>Write a &amp;value…</source>
        <translation>Wert schrei&amp;ben…</translation>
    </message>
    <message>
        <source>connect first</source>
        <translation>zuerst verbinden</translation>
    </message>
</context>
<context>
    <name>BlinkDialog</name>
    <message>
        <source>Blink</source>
        <translation>Blinken</translation>
    </message>
    <message>
        <source>Blinks when</source>
        <translation>Blinkt, wenn</translation>
    </message>
    <message>
        <source>Let cells blink</source>
        <translation>Zellen blinken lassen</translation>
    </message>
    <message>
        <source>Stop blinking</source>
        <translation>Nicht mehr blinken</translation>
    </message>
    <message>
        <source>Take over</source>
        <translation>Übernehmen</translation>
    </message>
    <message>
        <source>Text and values there blink. A value that the operator is changing does not.</source>
        <translation>Texte und Werte blinken dort. Ein Wert, den der Bediener gerade ändert, blinkt nicht.</translation>
    </message>
    <message>
        <source>What blinks</source>
        <translation>Was blinkt</translation>
    </message>
    <message>
        <source>When does it blink?</source>
        <translation>Wann blinkt es?</translation>
    </message>
    <message>
        <source>the selected cells ({n})</source>
        <translation>die gewählten Zellen ({n})</translation>
    </message>
    <message>
        <source>the whole screen</source>
        <translation>das ganze Bild</translation>
    </message>
</context>
<context>
    <name>CandidatesModel</name>
    <message>
        <source>1 in {count}</source>
        <translation>1 zu {count}</translation>
    </message>
    <message>
        <source>By chance</source>
        <translation>Zufall</translation>
    </message>
    <message>
        <source>Data type</source>
        <translation>Datentyp</translation>
    </message>
    <message>
        <source>How likely it is that the register agrees by chance, or that another one is meant</source>
        <translation>Wie wahrscheinlich es ist, dass das Register zufällig passt oder ein anderes gemeint ist</translation>
    </message>
    <message>
        <source>It may be as well: {others}</source>
        <translation>Ebenso möglich: {others}</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Reihenfolge</translation>
    </message>
    <message>
        <source>Raw</source>
        <translation>Rohwert</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Scale</source>
        <translation>Skalierung</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>What it came to at the last reading</source>
        <translation>Was es bei der letzten Ablesung ergab</translation>
    </message>
    <message>
        <source>high word first</source>
        <translation>High-Word zuerst</translation>
    </message>
    <message>
        <source>low byte first</source>
        <translation>Low-Byte zuerst</translation>
    </message>
    <message>
        <source>low word first</source>
        <translation>Low-Word zuerst</translation>
    </message>
    <message>
        <source>low word, low byte first</source>
        <translation>Low-Word, Low-Byte zuerst</translation>
    </message>
</context>
<context>
    <name>CaseRecorder</name>
    <message>
        <source>&amp;Discard</source>
        <translation>&amp;Verwerfen</translation>
    </message>
    <message>
        <source>&amp;Keep the case…</source>
        <translation>Fall &amp;behalten …</translation>
    </message>
    <message>
        <source>A case needs a name: say what it proves.</source>
        <translation>Ein Fall braucht einen Namen: was er nachweist.</translation>
    </message>
    <message>
        <source>Add a note</source>
        <translation>Hinweis einfügen</translation>
    </message>
    <message>
        <source>Add a note…</source>
        <translation>Hinweis einfügen …</translation>
    </message>
    <message>
        <source>Ask a person</source>
        <translation>Jemanden fragen</translation>
    </message>
    <message>
        <source>Ask a person…</source>
        <translation>Jemanden fragen …</translation>
    </message>
    <message>
        <source>Ask…</source>
        <translation>Fragen …</translation>
    </message>
    <message>
        <source>Case</source>
        <translation>Fall</translation>
    </message>
    <message>
        <source>Case of a tr&amp;ial</source>
        <translation>Fall einer Abnahm&amp;e</translation>
    </message>
    <message>
        <source>Case of a trial</source>
        <translation>Fall einer Abnahme</translation>
    </message>
    <message>
        <source>Discard the case</source>
        <translation>Fall verwerfen</translation>
    </message>
    <message>
        <source>Discard the case?</source>
        <translation>Den Fall verwerfen?</translation>
    </message>
    <message>
        <source>Disconnected: keep the case as it is, or discard it.</source>
        <translation>Getrennt: den Fall behalten, wie er ist, oder verwerfen.</translation>
    </message>
    <message>
        <source>E&amp;xpect…</source>
        <translation>&amp;Erwarten …</translation>
    </message>
    <message>
        <source>Expect</source>
        <translation>Erwarten</translation>
    </message>
    <message>
        <source>Expect this row</source>
        <translation>Diese Zeile erwarten</translation>
    </message>
    <message>
        <source>Expect this screen</source>
        <translation>Dieses Bild erwarten</translation>
    </message>
    <message>
        <source>Expect this value</source>
        <translation>Diesen Wert erwarten</translation>
    </message>
    <message>
        <source>Forget the last step</source>
        <translation>Letzten Schritt streichen</translation>
    </message>
    <message>
        <source>Forget the last step; what it did to the panel stays done</source>
        <translation>Den letzten Schritt streichen; was er am Panel bewirkt hat, bleibt</translation>
    </message>
    <message>
        <source>It is appended to {name}, the trial of this project.</source>
        <translation>Er wird an {name} angehängt, die Abnahme dieses Projekts.</translation>
    </message>
    <message>
        <source>It is shown in the trial and stands in its record.</source>
        <translation>Er wird in der Abnahme gezeigt und steht in ihrem Protokoll.</translation>
    </message>
    <message>
        <source>Its steps are in no file yet.</source>
        <translation>Seine Schritte stehen noch in keiner Datei.</translation>
    </message>
    <message>
        <source>Keep the case</source>
        <translation>Fall behalten</translation>
    </message>
    <message>
        <source>Keep…</source>
        <translation>Behalten …</translation>
    </message>
    <message>
        <source>Let the key go first: a step ends when its key is let go.</source>
        <translation>Erst die Taste loslassen: Ein Schritt endet mit dem Loslassen.</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>Note…</source>
        <translation>Hinweis …</translation>
    </message>
    <message>
        <source>Question</source>
        <translation>Frage</translation>
    </message>
    <message>
        <source>Record a &amp;case of a trial</source>
        <translation>&amp;Fall einer Abnahme aufnehmen</translation>
    </message>
    <message>
        <source>Row {row}: {text}</source>
        <translation>Zeile {row}: {text}</translation>
    </message>
    <message>
        <source>Save the project first: its trial lies beside it.</source>
        <translation>Erst das Projekt speichern: Die Abnahme liegt daneben.</translation>
    </message>
    <message>
        <source>Screen: {screen}</source>
        <translation>Bild: {screen}</translation>
    </message>
    <message>
        <source>Steps of the case</source>
        <translation>Schritte des Falls</translation>
    </message>
    <message>
        <source>The case cannot be recorded</source>
        <translation>Der Fall kann nicht aufgenommen werden</translation>
    </message>
    <message>
        <source>The panel begins anew, and simulated devices with it; then keys are noted as steps.</source>
        <translation>Das Panel beginnt von vorn, simulierte Geräte auch; dann werden Tasten als Schritte notiert.</translation>
    </message>
    <message>
        <source>Undo</source>
        <translation>Rückgängig</translation>
    </message>
    <message>
        <source>Value of {signal}</source>
        <translation>Wert von {signal}</translation>
    </message>
    <message>
        <source>Wai&amp;t until…</source>
        <translation>&amp;Warten bis …</translation>
    </message>
    <message>
        <source>Wait until</source>
        <translation>Warten bis</translation>
    </message>
    <message>
        <source>Wait until it is this row</source>
        <translation>Warten, bis die Zeile so ist</translation>
    </message>
    <message>
        <source>Wait until it is this value</source>
        <translation>Warten, bis der Wert so ist</translation>
    </message>
    <message>
        <source>Wait until this screen is shown</source>
        <translation>Warten, bis dieses Bild erscheint</translation>
    </message>
    <message>
        <source>What it proves</source>
        <translation>Was er nachweist</translation>
    </message>
    <message>
        <source>Whoever runs the trial answers yes or no.</source>
        <translation>Wer die Abnahme durchführt, antwortet mit Ja oder Nein.</translation>
    </message>
    <message>
        <source>connect first</source>
        <translation>zuerst verbinden</translation>
    </message>
    <message>
        <source>no case is recorded</source>
        <translation>es wird kein Fall aufgenommen</translation>
    </message>
    <message>
        <source>{name} was not written: {why}</source>
        <translation>{name} wurde nicht geschrieben: {why}</translation>
    </message>
</context>
<context>
    <name>CautionsDialog</name>
    <message>
        <source>Before it does, all of these must be true:</source>
        <translation>Vorher muss all dies gelten:</translation>
    </message>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>Fanlight can write to a machine</source>
        <translation>Fanlight kann auf eine Maschine schreiben</translation>
    </message>
    <message>
        <source>Fanlight only reads until a line is armed, and disarms when you disconnect, close the window or press Disarm. A device may keep following the last command it received: set its communication time-out so that it stops by itself when the panel no longer polls it.</source>
        <translation>Fanlight liest nur, bis das Schreiben auf eine Leitung freigegeben ist, und sperrt es beim Trennen, beim Schließen des Fensters oder mit „Schreiben sperren“. Ein Gerät kann den zuletzt erhaltenen Befehl weiter ausführen: Seinen Kommunikations-Timeout so einstellen, dass es von selbst anhält, wenn das Panel es nicht mehr abfragt.</translation>
    </message>
</context>
<context>
    <name>CellGrid</name>
    <message>
        <source>Old values: {texts}</source>
        <translation>Alte Werte: {texts}</translation>
    </message>
    <message>
        <source>blinks: {text}</source>
        <translation>blinkt: {text}</translation>
    </message>
    <message>
        <source>light on dark: {text}</source>
        <translation>hell auf dunkel: {text}</translation>
    </message>
    <message>
        <source>no value</source>
        <translation>kein Wert</translation>
    </message>
    <message>
        <source>old value: {text}</source>
        <translation>alter Wert: {text}</translation>
    </message>
    <message>
        <source>row {number}: blank</source>
        <translation>Zeile {number}: leer</translation>
    </message>
    <message>
        <source>too long</source>
        <translation>zu lang</translation>
    </message>
</context>
<context>
    <name>ChoiceRow</name>
    <message>
        <source>(choose)</source>
        <translation>(wählen)</translation>
    </message>
    <message>
        <source>different</source>
        <translation>verschieden</translation>
    </message>
    <message>
        <source>{name} (missing)</source>
        <translation>{name} (fehlt)</translation>
    </message>
</context>
<context>
    <name>ChosenWord</name>
    <message>
        <source>{name} (missing)</source>
        <translation>{name} (fehlt)</translation>
    </message>
</context>
<context>
    <name>Clipboard</name>
    <message>
        <source>Also copied: {parts}.</source>
        <translation>Mitkopiert: {parts}.</translation>
    </message>
    <message>
        <source>Cut</source>
        <translation>Ausschneiden</translation>
    </message>
    <message>
        <source>No screen change leads here yet; add one.</source>
        <translation>Noch führt kein Bildwechsel hierher; einen anlegen.</translation>
    </message>
    <message>
        <source>Paste</source>
        <translation>Einfügen</translation>
    </message>
    <message>
        <source>Paste screen</source>
        <translation>Bild einfügen</translation>
    </message>
    <message>
        <source>Paste screens</source>
        <translation>Bilder einfügen</translation>
    </message>
    <message>
        <source>Screen changes between these screens were copied too; add the screen changes that lead to them.</source>
        <translation>Die Bildwechsel zwischen diesen Bildern wurden mitkopiert; die Bildwechsel zu ihnen noch anlegen.</translation>
    </message>
    <message>
        <source>The text on the clipboard has {count} characters; this panel has {cells} cells.</source>
        <translation>Der Text der Zwischenablage hat {count} Zeichen; dieses Panel hat {cells} Zellen.</translation>
    </message>
    <message>
        <source>The text on the clipboard is empty.</source>
        <translation>Der Text der Zwischenablage ist leer.</translation>
    </message>
    <message>
        <source>The text on the clipboard needs {rows} x {columns} cells; there is not enough room at the cursor.</source>
        <translation>Der Text der Zwischenablage braucht {rows} x {columns} Zellen; am Cursor ist nicht genug Platz.</translation>
    </message>
    <message>
        <source>There is no screen on the clipboard. Copy one in the list of screens.</source>
        <translation>In der Zwischenablage ist kein Bild. Eines in der Liste der Bilder kopieren.</translation>
    </message>
    <message>
        <source>There is nothing on the clipboard that a panel could show.</source>
        <translation>In der Zwischenablage ist nichts, was ein Panel zeigen könnte.</translation>
    </message>
    <message>
        <source>What is on the clipboard cannot be read: {why}</source>
        <translation>Der Inhalt der Zwischenablage ist nicht lesbar: {why}</translation>
    </message>
    <message>
        <source>devices {names}</source>
        <translation>Geräte {names}</translation>
    </message>
    <message>
        <source>it contains no screen</source>
        <translation>sie enthält kein Bild</translation>
    </message>
    <message>
        <source>it is larger than any project</source>
        <translation>sie ist größer als jedes Projekt</translation>
    </message>
    <message>
        <source>lines {names}</source>
        <translation>Leitungen {names}</translation>
    </message>
    <message>
        <source>signals {names}</source>
        <translation>Signale {names}</translation>
    </message>
</context>
<context>
    <name>CommandFinder</name>
    <message>
        <source>Commands and places</source>
        <translation>Befehle und Stellen</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Enter runs it, Escape closes.</source>
        <translation>Eingabetaste führt aus, Esc schließt.</translation>
    </message>
    <message>
        <source>Find a command</source>
        <translation>Befehl suchen</translation>
    </message>
    <message>
        <source>Go to the device {name}</source>
        <translation>Zum Gerät {name}</translation>
    </message>
    <message>
        <source>Go to the line {name}</source>
        <translation>Zur Leitung {name}</translation>
    </message>
    <message>
        <source>Go to the screen {name}</source>
        <translation>Zum Bild {name}</translation>
    </message>
    <message>
        <source>Go to the signal {name}</source>
        <translation>Zum Signal {name}</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>More matches: {count}. Type more letters to narrow the list.</source>
        <translation>Weitere Treffer: {count}. Mehr Buchstaben grenzen die Liste ein.</translation>
    </message>
    <message>
        <source>No match. Try fewer letters.</source>
        <translation>Kein Treffer. Weniger Buchstaben versuchen.</translation>
    </message>
    <message>
        <source>Not available now.</source>
        <translation>Jetzt nicht verfügbar.</translation>
    </message>
    <message>
        <source>Not available now: {why}</source>
        <translation>Jetzt nicht verfügbar: {why}</translation>
    </message>
    <message>
        <source>Parts of a command, screen or signal</source>
        <translation>Teile eines Befehls, Bildes oder Signals</translation>
    </message>
    <message>
        <source>Screen</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>Search term</source>
        <translation>Suchbegriff</translation>
    </message>
    <message>
        <source>Signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>Type a few letters, or choose with Down.</source>
        <translation>Einige Buchstaben eingeben oder mit Pfeil ab wählen.</translation>
    </message>
</context>
<context>
    <name>ComparisonWindow</name>
    <message>
        <source>&amp;Next difference</source>
        <translation>&amp;Nächster Unterschied</translation>
    </message>
    <message>
        <source>&amp;Previous difference</source>
        <translation>&amp;Voriger Unterschied</translation>
    </message>
    <message>
        <source>+ field added</source>
        <translation>+ Feld hinzugefügt</translation>
    </message>
    <message>
        <source>Also &amp;show identical screens</source>
        <translation>Auch &amp;gleiche Bilder zeigen</translation>
    </message>
    <message>
        <source>Both projects are identical, down to the last cell.</source>
        <translation>Beide Projekte sind gleich, bis zur letzten Zelle.</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Änderung</translation>
    </message>
    <message>
        <source>Changes</source>
        <translation>Änderungen</translation>
    </message>
    <message>
        <source>Compare: {before} – {after}</source>
        <translation>Vergleich: {before} – {after}</translation>
    </message>
    <message>
        <source>Difference</source>
        <translation>Unterschied</translation>
    </message>
    <message>
        <source>Keys and screen changes</source>
        <translation>Tasten und Bildwechsel</translation>
    </message>
    <message>
        <source>Lines and devices</source>
        <translation>Leitungen und Geräte</translation>
    </message>
    <message>
        <source>Next difference</source>
        <translation>Nächster Unterschied</translation>
    </message>
    <message>
        <source>Panel</source>
        <translation>Panel</translation>
    </message>
    <message>
        <source>Previous difference</source>
        <translation>Voriger Unterschied</translation>
    </message>
    <message>
        <source>Project</source>
        <translation>Projekt</translation>
    </message>
    <message>
        <source>Project and panel</source>
        <translation>Projekt und Panel</translation>
    </message>
    <message>
        <source>Property</source>
        <translation>Eigenschaft</translation>
    </message>
    <message>
        <source>Screens</source>
        <translation>Bilder</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>Wavy line: other text. Box: modified field. Dashed box: field on this side only.</source>
        <translation>Wellenlinie: anderer Text. Rahmen: geändertes Feld. Gestrichelt: Feld nur auf dieser Seite.</translation>
    </message>
    <message>
        <source>added</source>
        <translation>hinzugefügt</translation>
    </message>
    <message>
        <source>identical</source>
        <translation>gleich</translation>
    </message>
    <message>
        <source>modified</source>
        <translation>geändert</translation>
    </message>
    <message>
        <source>order</source>
        <translation>Reihenfolge</translation>
    </message>
    <message>
        <source>removed</source>
        <translation>entfernt</translation>
    </message>
    <message>
        <source>renamed</source>
        <translation>umbenannt</translation>
    </message>
    <message>
        <source>{before} → {after}</source>
        <translation>{before} → {after}</translation>
    </message>
    <message>
        <source>{cause} → {target} ({screen})</source>
        <translation>{cause} → {target} ({screen})</translation>
    </message>
    <message>
        <source>{cause}: {deed} ({screen})</source>
        <translation>{cause}: {deed} ({screen})</translation>
    </message>
    <message>
        <source>{signal} at row {row}, column {column}</source>
        <translation>{signal} in Zeile {row}, Spalte {column}</translation>
    </message>
    <message>
        <source>− field removed</source>
        <translation>− Feld entfernt</translation>
    </message>
    <message>
        <source>≠ field modified</source>
        <translation>≠ Feld geändert</translation>
    </message>
</context>
<context>
    <name>ConditionDeeds</name>
    <message>
        <source>clear</source>
        <translation>lösche</translation>
    </message>
    <message>
        <source>do what?</source>
        <translation>was tun?</translation>
    </message>
    <message>
        <source>set</source>
        <translation>setze</translation>
    </message>
    <message>
        <source>show screen</source>
        <translation>zeige Bild</translation>
    </message>
    <message>
        <source>toggle</source>
        <translation>invertiere</translation>
    </message>
    <message>
        <source>write</source>
        <translation>schreibe</translation>
    </message>
    <message>
        <source>write the value of</source>
        <translation>schreibe den Wert von</translation>
    </message>
    <message>
        <source>{do}</source>
        <translation>{do}</translation>
    </message>
    <message>
        <source>{do} {held} to {target}</source>
        <translation>{do} {held} in {target}</translation>
    </message>
    <message>
        <source>{do} {number} to {target}</source>
        <translation>{do} {number} in {target}</translation>
    </message>
    <message>
        <source>{do} {target}</source>
        <translation>{do} {target}</translation>
    </message>
    <message>
        <source>{do} {to}</source>
        <translation>{do} {to}</translation>
    </message>
</context>
<context>
    <name>ConditionRow</name>
    <message>
        <source>(choose)</source>
        <translation>(wählen)</translation>
    </message>
    <message>
        <source>(never)</source>
        <translation>(nie)</translation>
    </message>
    <message>
        <source>a comparison value is needed</source>
        <translation>ein Vergleichswert ist nötig</translation>
    </message>
    <message>
        <source>equals</source>
        <translation>ist gleich</translation>
    </message>
    <message>
        <source>is above</source>
        <translation>ist über</translation>
    </message>
    <message>
        <source>is below</source>
        <translation>ist unter</translation>
    </message>
    <message>
        <source>is clear</source>
        <translation>nicht gesetzt</translation>
    </message>
    <message>
        <source>is set</source>
        <translation>ist gesetzt</translation>
    </message>
    <message>
        <source>{label}: comparison</source>
        <translation>{label}: Vergleich</translation>
    </message>
    <message>
        <source>{label}: signal</source>
        <translation>{label}: Signal</translation>
    </message>
    <message>
        <source>{label}: value</source>
        <translation>{label}: Wert</translation>
    </message>
    <message>
        <source>{name} (missing)</source>
        <translation>{name} (fehlt)</translation>
    </message>
</context>
<context>
    <name>ConnectBar</name>
    <message>
        <source>Connect</source>
        <translation>Verbinden</translation>
    </message>
    <message>
        <source>Connect to</source>
        <translation>Verbinden mit</translation>
    </message>
    <message>
        <source>Disconnect</source>
        <translation>Trennen</translation>
    </message>
    <message>
        <source>L&amp;ine</source>
        <translation>Lei&amp;tung</translation>
    </message>
    <message>
        <source>Reconnect</source>
        <translation>Neu verbinden</translation>
    </message>
    <message>
        <source>Simulated devices</source>
        <translation>Simulierte Geräte</translation>
    </message>
    <message>
        <source>The design was changed after connecting. The panel still runs the previous version.</source>
        <translation>Der Entwurf wurde nach dem Verbinden geändert. Das Panel läuft noch mit dem vorigen Stand.</translation>
    </message>
    <message>
        <source>no line in this project</source>
        <translation>keine Leitung in diesem Projekt</translation>
    </message>
    <message>
        <source>{line} at {endpoint}</source>
        <translation>{line} an {endpoint}</translation>
    </message>
</context>
<context>
    <name>Connecting</name>
    <message>
        <source>&amp;Arm…</source>
        <translation>S&amp;chreiben freigeben…</translation>
    </message>
    <message>
        <source>&amp;Connect</source>
        <translation>&amp;Verbinden</translation>
    </message>
    <message>
        <source>&amp;Disarm</source>
        <translation>Sch&amp;reiben sperren</translation>
    </message>
    <message>
        <source>Arm…</source>
        <translation>Freigeben…</translation>
    </message>
    <message>
        <source>D&amp;isconnect</source>
        <translation>&amp;Trennen</translation>
    </message>
    <message>
        <source>Disarm</source>
        <translation>Sperren</translation>
    </message>
    <message>
        <source>Re&amp;connect</source>
        <translation>&amp;Neu verbinden</translation>
    </message>
    <message>
        <source>To &amp;simulated devices</source>
        <translation>Mit s&amp;imulierten Geräten</translation>
    </message>
    <message>
        <source>To the &amp;real line</source>
        <translation>Mit der echten Leitun&amp;g</translation>
    </message>
    <message>
        <source>already armed</source>
        <translation>das Schreiben ist bereits freigegeben</translation>
    </message>
    <message>
        <source>connect to the real line first</source>
        <translation>zuerst mit der echten Leitung verbinden</translation>
    </message>
    <message>
        <source>disconnect first</source>
        <translation>zuerst trennen</translation>
    </message>
    <message>
        <source>not armed</source>
        <translation>das Schreiben ist nicht freigegeben</translation>
    </message>
    <message>
        <source>nothing is connected</source>
        <translation>nichts ist verbunden</translation>
    </message>
    <message>
        <source>something else runs on the line, without writing</source>
        <translation>auf der Leitung läuft etwas anderes, ohne zu schreiben</translation>
    </message>
</context>
<context>
    <name>CopiesDialog</name>
    <message>
        <source>&amp;Copy</source>
        <translation>&amp;Kopieren</translation>
    </message>
    <message>
        <source>&amp;Device</source>
        <translation>&amp;Gerät</translation>
    </message>
    <message>
        <source>&amp;Number of copies</source>
        <translation>&amp;Anzahl der Kopien</translation>
    </message>
    <message>
        <source>&amp;Register offset per copy</source>
        <translation>&amp;Registerversatz je Kopie</translation>
    </message>
    <message>
        <source>&amp;Unit address of the first</source>
        <translation>Geräteadresse des &amp;ersten</translation>
    </message>
    <message>
        <source>Copy by an offset</source>
        <translation>Mit Versatz kopieren</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Each copy reads its registers so many numbers further on.</source>
        <translation>Jede Kopie hat ihre Register um so viele Nummern weiter.</translation>
    </message>
    <message>
        <source>Name of the &amp;first copy</source>
        <translation>Name der ersten &amp;Kopie</translation>
    </message>
    <message>
        <source>New signal</source>
        <translation>Neues Signal</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>Numbers left out because a signal has such a name: {count}</source>
        <translation>Ausgelassene Nummern, weil ein Signal so heißt: {count}</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Source</source>
        <translation>Quelle</translation>
    </message>
    <message>
        <source>a new device for each copy</source>
        <translation>ein neues Gerät je Kopie</translation>
    </message>
    <message>
        <source>the same</source>
        <translation>dasselbe</translation>
    </message>
</context>
<context>
    <name>CursorLine</name>
    <message>
        <source>&apos;{name}&apos;, a signal that does not exist</source>
        <translation>„{name}“, ein Signal, das es nicht gibt</translation>
    </message>
    <message>
        <source>No field here. Type text, or place a field with Ctrl+Enter.</source>
        <translation>Hier ist kein Feld. Text tippen oder mit Strg+Eingabe ein Feld platzieren.</translation>
    </message>
    <message>
        <source>Row {row}, column {column}</source>
        <translation>Zeile {row}, Spalte {column}</translation>
    </message>
    <message>
        <source>Under the cursor</source>
        <translation>Am Cursor</translation>
    </message>
    <message>
        <source>any text of up to {count} characters</source>
        <translation>beliebiger Text bis {count} Zeichen</translation>
    </message>
    <message>
        <source>any value</source>
        <translation>beliebiger Wert</translation>
    </message>
    <message>
        <source>blank</source>
        <translation>leer</translation>
    </message>
    <message>
        <source>blinks when {condition}</source>
        <translation>blinkt, wenn {condition}</translation>
    </message>
    <message>
        <source>entry</source>
        <translation>Eingabe</translation>
    </message>
    <message>
        <source>field {number}, cell {cell} of {width}</source>
        <translation>Feld {number}, Zelle {cell} von {width}</translation>
    </message>
    <message>
        <source>fields selected: {count}</source>
        <translation>ausgewählte Felder: {count}</translation>
    </message>
    <message>
        <source>range {low} to {high} {unit}</source>
        <translation>Bereich {low} bis {high} {unit}</translation>
    </message>
    <message>
        <source>text “{character}”</source>
        <translation>Text „{character}“</translation>
    </message>
    <message>
        <source>texts: {count}</source>
        <translation>Texte: {count}</translation>
    </message>
    <message>
        <source>this panel cannot show {character}</source>
        <translation>dieses Panel kann {character} nicht anzeigen</translation>
    </message>
    <message>
        <source>widest “{text}”: fits</source>
        <translation>breitester „{text}“: passt</translation>
    </message>
    <message>
        <source>widest “{text}”: ⚠ needs {needed}, has {width}</source>
        <translation>breitester „{text}“: ⚠ braucht {needed}, hat {width}</translation>
    </message>
    <message>
        <source>{rows} x {columns} cells selected</source>
        <translation>{rows} x {columns} Zellen ausgewählt</translation>
    </message>
    <message>
        <source>{signal}: {kind}, {width} wide</source>
        <translation>{signal}: {kind}, {width} breit</translation>
    </message>
</context>
<context>
    <name>CurvePicker</name>
    <message>
        <source>Curves that can be shown</source>
        <translation>Kurven zur Auswahl</translation>
    </message>
    <message>
        <source>Search</source>
        <translation>Suchen</translation>
    </message>
    <message>
        <source>Search for a curve</source>
        <translation>Kurve suchen</translation>
    </message>
    <message>
        <source>{count} of {most} curves</source>
        <translation>{count} von {most} Kurven</translation>
    </message>
    <message>
        <source>{count} of {most} curves: remove one first</source>
        <translation>{count} von {most} Kurven: zuerst eine entfernen</translation>
    </message>
</context>
<context>
    <name>DesignTools</name>
    <message>
        <source>Nothing to redo</source>
        <translation>Nichts zu wiederholen</translation>
    </message>
    <message>
        <source>Nothing to undo</source>
        <translation>Nichts rückgängig zu machen</translation>
    </message>
    <message>
        <source>Redo</source>
        <translation>Wiederholen</translation>
    </message>
    <message>
        <source>Redo: {step} (Ctrl+Y)</source>
        <translation>Wiederholen: {step} (Strg+Y)</translation>
    </message>
    <message>
        <source>Undo</source>
        <translation>Rückgängig</translation>
    </message>
    <message>
        <source>Undo: {step} (Ctrl+Z)</source>
        <translation>Rückgängig: {step} (Strg+Z)</translation>
    </message>
</context>
<context>
    <name>DesignViews</name>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Keys and screen changes</source>
        <translation>Tasten und Bildwechsel</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Leitungen</translation>
    </message>
    <message>
        <source>Lines and devices</source>
        <translation>Leitungen und Geräte</translation>
    </message>
    <message>
        <source>Map</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>Page map</source>
        <translation>Bildplan</translation>
    </message>
    <message>
        <source>Panel</source>
        <translation>Panel</translation>
    </message>
    <message>
        <source>Screen</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>Views</source>
        <translation>Ansichten</translation>
    </message>
</context>
<context>
    <name>DesignWorkspace</name>
    <message>
        <source>&amp;Add a screen</source>
        <translation>Bild &amp;anlegen</translation>
    </message>
    <message>
        <source>&amp;Delete the field</source>
        <translation>Feld &amp;löschen</translation>
    </message>
    <message>
        <source>&amp;Fix the finding</source>
        <translation>Problem be&amp;heben</translation>
    </message>
    <message>
        <source>&amp;Import signals…</source>
        <translation>Signale &amp;importieren…</translation>
    </message>
    <message>
        <source>&amp;Place a field…</source>
        <translation>&amp;Feld platzieren…</translation>
    </message>
    <message>
        <source>&amp;Rename the screen</source>
        <translation>Bild &amp;umbenennen</translation>
    </message>
    <message>
        <source>&amp;Try it here</source>
        <translation>Hier au&amp;sprobieren</translation>
    </message>
    <message>
        <source>A screen of these signals…</source>
        <translation>Ein Bild aus diesen Signalen…</translation>
    </message>
    <message>
        <source>Accept the finding…</source>
        <translation>Prüfergebnis akzeptieren…</translation>
    </message>
    <message>
        <source>Add a part</source>
        <translation>Hinzufügen</translation>
    </message>
    <message>
        <source>Edit the panel &amp;messages</source>
        <translation>Paneltexte &amp;bearbeiten</translation>
    </message>
    <message>
        <source>Export signals…</source>
        <translation>Signale exportieren…</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Prüfergebnisse</translation>
    </message>
    <message>
        <source>Go to</source>
        <translation>Gehe zu</translation>
    </message>
    <message>
        <source>Go to the findings and back</source>
        <translation>Zu den Prüfergebnissen und zurück</translation>
    </message>
    <message>
        <source>Go to the pr&amp;operties and back</source>
        <translation>Zu den &amp;Eigenschaften und zurück</translation>
    </message>
    <message>
        <source>Ne&amp;xt screen</source>
        <translation>&amp;Nächstes Bild</translation>
    </message>
    <message>
        <source>Next &amp;language of the texts</source>
        <translation>Nächste Spra&amp;che der Texte</translation>
    </message>
    <message>
        <source>Next finding</source>
        <translation>Nächstes Prüfergebnis</translation>
    </message>
    <message>
        <source>Next pane</source>
        <translation>Nächster Bereich</translation>
    </message>
    <message>
        <source>Pag&amp;e map</source>
        <translation>Bild&amp;plan</translation>
    </message>
    <message>
        <source>Pre&amp;vious screen</source>
        <translation>&amp;Voriges Bild</translation>
    </message>
    <message>
        <source>Previo&amp;us finding</source>
        <translation>Vo&amp;riges Prüfergebnis</translation>
    </message>
    <message>
        <source>Previous pane</source>
        <translation>Vorheriger Bereich</translation>
    </message>
    <message>
        <source>Screens ({count})</source>
        <translation>Bilder ({count})</translation>
    </message>
    <message>
        <source>Show: {view}</source>
        <translation>Zeigen: {view}</translation>
    </message>
    <message>
        <source>Ta&amp;bles</source>
        <translation>&amp;Tabellen</translation>
    </message>
    <message>
        <source>The panel has only one language; add more in the panel&apos;s properties.</source>
        <translation>Das Panel hat nur eine Sprache; weitere in den Eigenschaften des Panels hinzufügen.</translation>
    </message>
    <message>
        <source>Views</source>
        <translation>Ansichten</translation>
    </message>
    <message>
        <source>W&amp;hole screens</source>
        <translation>&amp;Komplette Bilder</translation>
    </message>
</context>
<context>
    <name>DevicesModel</name>
    <message>
        <source>Answers after</source>
        <translation>Antwortet nach</translation>
    </message>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Unit address</source>
        <translation>Geräteadresse</translation>
    </message>
    <message>
        <source>What it calls itself</source>
        <translation>Nennt sich</translation>
    </message>
    <message>
        <source>no name</source>
        <translation>kein Name</translation>
    </message>
</context>
<context>
    <name>DifferenceDialog</name>
    <message>
        <source>&amp;Copy as text</source>
        <translation>Als Text &amp;kopieren</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>Before: {file}, {when}</source>
        <translation>Vorher: {file}, {when}</translation>
    </message>
    <message>
        <source>Case</source>
        <translation>Fall</translation>
    </message>
    <message>
        <source>Compared with an earlier record</source>
        <translation>Vergleich mit früherem Protokoll</translation>
    </message>
    <message>
        <source>Differences</source>
        <translation>Unterschiede</translation>
    </message>
    <message>
        <source>Every step came to the same result</source>
        <translation>Jeder Schritt hat dasselbe Ergebnis</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Jetzt</translation>
    </message>
    <message>
        <source>Seen before</source>
        <translation>Vorher gesehen</translation>
    </message>
    <message>
        <source>Seen now</source>
        <translation>Jetzt gesehen</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Schritt</translation>
    </message>
    <message>
        <source>Steps with another result: {count}; no longer passed: {worse}</source>
        <translation>Schritte mit anderem Ergebnis: {count}; nicht mehr bestanden: {worse}</translation>
    </message>
    <message>
        <source>not there</source>
        <translation>nicht vorhanden</translation>
    </message>
    <message>
        <source>the whole case</source>
        <translation>der ganze Fall</translation>
    </message>
</context>
<context>
    <name>Dropping</name>
    <message>
        <source> – Ctrl: the value only</source>
        <translation> – Strg: nur der Wert</translation>
    </message>
    <message>
        <source>Does not fit: {why}.</source>
        <translation>Passt nicht: {why}.</translation>
    </message>
    <message>
        <source>Drop here: {what}</source>
        <translation>Hier ablegen: {what}</translation>
    </message>
    <message>
        <source>Place {count} signals</source>
        <translation>{count} Signale platzieren</translation>
    </message>
    <message>
        <source>Place “{signal}”</source>
        <translation>„{signal}“ platzieren</translation>
    </message>
    <message>
        <source>Placed: {what}</source>
        <translation>Platziert: {what}</translation>
    </message>
    <message>
        <source>Row {row}, column {column}</source>
        <translation>Zeile {row}, Spalte {column}</translation>
    </message>
    <message>
        <source>entry on</source>
        <translation>Eingabe an</translation>
    </message>
    <message>
        <source>value of {count} cells</source>
        <translation>Wert mit {count} Zellen</translation>
    </message>
    <message>
        <source>{count} signals in rows {first} to {last}</source>
        <translation>{count} Signale in Zeile {first} bis {last}</translation>
    </message>
    <message>
        <source>{count} signals need as many empty rows below one another, and there are {free} from here on</source>
        <translation>{count} Signale brauchen ebenso viele leere Zeilen untereinander, ab hier sind es {free}</translation>
    </message>
</context>
<context>
    <name>EditMenu</name>
    <message>
        <source>&amp;Copy</source>
        <translation>&amp;Kopieren</translation>
    </message>
    <message>
        <source>&amp;Delete</source>
        <translation>&amp;Löschen</translation>
    </message>
    <message>
        <source>&amp;Find…</source>
        <translation>Su&amp;chen…</translation>
    </message>
    <message>
        <source>&amp;Paste</source>
        <translation>&amp;Einfügen</translation>
    </message>
    <message>
        <source>Cu&amp;t</source>
        <translation>&amp;Ausschneiden</translation>
    </message>
    <message>
        <source>Select &amp;all</source>
        <translation>Alles a&amp;uswählen</translation>
    </message>
    <message>
        <source>There is nothing here for this command</source>
        <translation>Für diesen Befehl ist hier nichts da</translation>
    </message>
    <message>
        <source>nothing in the window has the focus</source>
        <translation>nichts im Fenster hat den Fokus</translation>
    </message>
</context>
<context>
    <name>EditorActions</name>
    <message>
        <source>&amp;Align left</source>
        <translation>&amp;Links ausrichten</translation>
    </message>
    <message>
        <source>&amp;Blink when…</source>
        <translation>&amp;Blinkt, wenn …</translation>
    </message>
    <message>
        <source>&amp;Cells</source>
        <translation>&amp;Zellen</translation>
    </message>
    <message>
        <source>&amp;Centre</source>
        <translation>&amp;Zentrieren</translation>
    </message>
    <message>
        <source>&amp;Copy</source>
        <translation>&amp;Kopieren</translation>
    </message>
    <message>
        <source>&amp;Equally wide</source>
        <translation>&amp;Gleich breit</translation>
    </message>
    <message>
        <source>&amp;Find…</source>
        <translation>&amp;Suchen…</translation>
    </message>
    <message>
        <source>&amp;Fit to the widest value</source>
        <translation>An breitesten Wert an&amp;passen</translation>
    </message>
    <message>
        <source>&amp;Insert instead of overwriting</source>
        <translation>Ein&amp;fügen statt überschreiben</translation>
    </message>
    <message>
        <source>&amp;Keys of the panel</source>
        <translation>&amp;Tasten des Panels</translation>
    </message>
    <message>
        <source>&amp;Live values</source>
        <translation>&amp;Livewerte</translation>
    </message>
    <message>
        <source>&amp;Marks</source>
        <translation>&amp;Marken</translation>
    </message>
    <message>
        <source>&amp;Narrower</source>
        <translation>S&amp;chmaler</translation>
    </message>
    <message>
        <source>&amp;Next match</source>
        <translation>&amp;Nächster Treffer</translation>
    </message>
    <message>
        <source>&amp;Paste</source>
        <translation>&amp;Einfügen</translation>
    </message>
    <message>
        <source>&amp;Previous match</source>
        <translation>&amp;Voriger Treffer</translation>
    </message>
    <message>
        <source>&amp;Replace…</source>
        <translation>&amp;Ersetzen…</translation>
    </message>
    <message>
        <source>&amp;Sample values</source>
        <translation>&amp;Beispielwerte</translation>
    </message>
    <message>
        <source>&amp;Wider</source>
        <translation>&amp;Breiter</translation>
    </message>
    <message>
        <source>&amp;Widest values</source>
        <translation>Breiteste &amp;Werte</translation>
    </message>
    <message>
        <source>Align ri&amp;ght</source>
        <translation>&amp;Rechts ausrichten</translation>
    </message>
    <message>
        <source>Arran&amp;ge</source>
        <translation>An&amp;ordnen</translation>
    </message>
    <message>
        <source>As large as &amp;fits</source>
        <translation>&amp;So groß wie möglich</translation>
    </message>
    <message>
        <source>Cu&amp;t</source>
        <translation>&amp;Ausschneiden</translation>
    </message>
    <message>
        <source>D&amp;uplicate</source>
        <translation>&amp;Duplizieren</translation>
    </message>
    <message>
        <source>Find on &amp;screens</source>
        <translation>Im Pro&amp;jekt suchen</translation>
    </message>
    <message>
        <source>Lar&amp;ger</source>
        <translation>&amp;Größer</translation>
    </message>
    <message>
        <source>Move &amp;down</source>
        <translation>Nach &amp;unten</translation>
    </message>
    <message>
        <source>Move &amp;up</source>
        <translation>Nach &amp;oben</translation>
    </message>
    <message>
        <source>Move to the &amp;left</source>
        <translation>Nach l&amp;inks</translation>
    </message>
    <message>
        <source>Move to the &amp;right</source>
        <translation>Nach r&amp;echts</translation>
    </message>
    <message>
        <source>Select &amp;all</source>
        <translation>Alles a&amp;uswählen</translation>
    </message>
    <message>
        <source>Sho&amp;w in the fields</source>
        <translation>In den Feldern zei&amp;gen</translation>
    </message>
    <message>
        <source>Smalle&amp;r</source>
        <translation>&amp;Kleiner</translation>
    </message>
    <message>
        <source>the panel is being tried out</source>
        <translation>das Panel wird gerade ausprobiert</translation>
    </message>
    <message>
        <source>this project has no screen yet</source>
        <translation>dieses Projekt hat noch kein Bild</translation>
    </message>
</context>
<context>
    <name>EditorMouse</name>
    <message>
        <source>Copy to row {row}, column {column}</source>
        <translation>Kopieren nach Zeile {row}, Spalte {column}</translation>
    </message>
    <message>
        <source>Does not fit: {why}</source>
        <translation>Passt nicht: {why}</translation>
    </message>
    <message>
        <source>Move to row {row}, column {column}; hold Ctrl to copy</source>
        <translation>Verschieben nach Zeile {row}, Spalte {column}; mit Strg kopieren</translation>
    </message>
    <message>
        <source>Width {width}, from column {first} to {last}</source>
        <translation>Breite {width}, von Spalte {first} bis {last}</translation>
    </message>
    <message>
        <source>{where}. It would cover the text &apos;{text}&apos;.</source>
        <translation>{where}. Es würde den Text „{text}“ verdecken.</translation>
    </message>
</context>
<context>
    <name>EditorTools</name>
    <message>
        <source>As large as fits (Ctrl+0)</source>
        <translation>So groß wie möglich (Strg+0)</translation>
    </message>
    <message>
        <source>Edit again  F9</source>
        <translation>Bearbeiten  F9</translation>
    </message>
    <message>
        <source>Fit</source>
        <translation>Einpassen</translation>
    </message>
    <message>
        <source>Language in which texts are shown and typed (Ctrl+Shift+Space)</source>
        <translation>Sprache, in der die Texte gezeigt und getippt werden (Strg+Umschalt+Leertaste)</translation>
    </message>
    <message>
        <source>Larger</source>
        <translation>Größer</translation>
    </message>
    <message>
        <source>Larger cells (Ctrl++)</source>
        <translation>Größere Zellen (Strg++)</translation>
    </message>
    <message>
        <source>Operate the panel here, with simulated values (F9; Space on a field)</source>
        <translation>Panel hier bedienen, mit simulierten Werten (F9; Leertaste auf einem Feld)</translation>
    </message>
    <message>
        <source>Smaller</source>
        <translation>Kleiner</translation>
    </message>
    <message>
        <source>Smaller cells (Ctrl+-)</source>
        <translation>Kleinere Zellen (Strg+-)</translation>
    </message>
    <message>
        <source>Try it  F9</source>
        <translation>Ausprobieren  F9</translation>
    </message>
    <message>
        <source>What the fields show while you design</source>
        <translation>Was die Felder beim Entwerfen zeigen</translation>
    </message>
</context>
<context>
    <name>Events</name>
    <message>
        <source>Alarms {count}</source>
        <translation>Alarme {count}</translation>
    </message>
    <message>
        <source>Line {count}</source>
        <translation>Leitung {count}</translation>
    </message>
    <message>
        <source>Signals {count}</source>
        <translation>Signale {count}</translation>
    </message>
    <message>
        <source>Written {count}</source>
        <translation>Geschrieben {count}</translation>
    </message>
    <message>
        <source>alarm</source>
        <translation>Alarm</translation>
    </message>
    <message>
        <source>armed</source>
        <translation>freigegeben</translation>
    </message>
    <message>
        <source>changed</source>
        <translation>geändert</translation>
    </message>
    <message>
        <source>confirmed</source>
        <translation>bestätigt</translation>
    </message>
    <message>
        <source>disarmed</source>
        <translation>Schreiben gesperrt</translation>
    </message>
    <message>
        <source>entered</source>
        <translation>eingegeben</translation>
    </message>
    <message>
        <source>fell</source>
        <translation>gefallen</translation>
    </message>
    <message>
        <source>line fault</source>
        <translation>Leitungsstörung</translation>
    </message>
    <message>
        <source>line restored</source>
        <translation>Leitung wieder da</translation>
    </message>
    <message>
        <source>not confirmed</source>
        <translation>nicht bestätigt</translation>
    </message>
    <message>
        <source>not written</source>
        <translation>nicht geschrieben</translation>
    </message>
    <message>
        <source>recording</source>
        <translation>Aufzeichnung</translation>
    </message>
    <message>
        <source>refused</source>
        <translation>abgelehnt</translation>
    </message>
    <message>
        <source>remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>rose</source>
        <translation>gestiegen</translation>
    </message>
    <message>
        <source>screen</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>stop</source>
        <translation>Stopp</translation>
    </message>
    <message>
        <source>written</source>
        <translation>geschrieben</translation>
    </message>
</context>
<context>
    <name>EventsModel</name>
    <message>
        <source>In words</source>
        <translation>In Worten</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Zeit</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Wo</translation>
    </message>
</context>
<context>
    <name>EventsTable</name>
    <message>
        <source>Events</source>
        <translation>Ereignisse</translation>
    </message>
</context>
<context>
    <name>EventsView</name>
    <message>
        <source>&amp;Copy the events</source>
        <translation>Ereignisse &amp;kopieren</translation>
    </message>
    <message>
        <source>&amp;Save the events…</source>
        <translation>Ereignisse &amp;speichern…</translation>
    </message>
    <message>
        <source>Events</source>
        <translation>Ereignisse</translation>
    </message>
    <message>
        <source>Filter</source>
        <translation>Filter</translation>
    </message>
    <message>
        <source>Filter of the events</source>
        <translation>Filter der Ereignisse</translation>
    </message>
    <message>
        <source>Go to the &amp;moment</source>
        <translation>Zum &amp;Zeitpunkt</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>Save the events</source>
        <translation>Ereignisse speichern</translation>
    </message>
    <message>
        <source>Type a remark and press Enter</source>
        <translation>Bemerkung eingeben, dann Eingabetaste</translation>
    </message>
    <message>
        <source>Write a &amp;remark</source>
        <translation>&amp;Bemerkung schreiben</translation>
    </message>
    <message>
        <source>events</source>
        <translation>Ereignisse</translation>
    </message>
    <message>
        <source>remarks can only be added while live</source>
        <translation>Bemerkungen sind nur live möglich</translation>
    </message>
    <message>
        <source>{shown} of {total}</source>
        <translation>{shown} von {total}</translation>
    </message>
</context>
<context>
    <name>ExportDialog</name>
    <message>
        <source>&amp;Decimal mark</source>
        <translation>&amp;Dezimalzeichen</translation>
    </message>
    <message>
        <source>&amp;Save as…</source>
        <translation>Speichern &amp;unter…</translation>
    </message>
    <message>
        <source>&amp;Text with separators (CSV, UTF-8)</source>
        <translation>Text mit &amp;Trennzeichen (CSV, UTF-8)</translation>
    </message>
    <message>
        <source>&amp;Workbook (XLSX)</source>
        <translation>&amp;Arbeitsmappe (XLSX)</translation>
    </message>
    <message>
        <source>All</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>Comma ,</source>
        <translation>Komma ,</translation>
    </message>
    <message>
        <source>Comma, 0,1</source>
        <translation>Komma, 0,1</translation>
    </message>
    <message>
        <source>Device {name}</source>
        <translation>Gerät {name}</translation>
    </message>
    <message>
        <source>Export signals</source>
        <translation>Signale exportieren</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Point, 0.1</source>
        <translation>Punkt, 0.1</translation>
    </message>
    <message>
        <source>S&amp;eparator</source>
        <translation>T&amp;rennzeichen</translation>
    </message>
    <message>
        <source>S&amp;ignals</source>
        <translation>&amp;Signale</translation>
    </message>
    <message>
        <source>Save the signals as</source>
        <translation>Signale speichern unter</translation>
    </message>
    <message>
        <source>Selected</source>
        <translation>Ausgewählte</translation>
    </message>
    <message>
        <source>Semicolon ;</source>
        <translation>Semikolon ;</translation>
    </message>
    <message>
        <source>Tab</source>
        <translation>Tabulator</translation>
    </message>
    <message>
        <source>Text (*.csv)</source>
        <translation>Text (*.csv)</translation>
    </message>
    <message>
        <source>The file has one column for each property of a signal; Import reads it back unchanged. Registers are numbered as in the manual of each device.</source>
        <translation>Die Datei hat eine Spalte je Eigenschaft eines Signals; Importieren liest sie unverändert wieder ein. Register sind gezählt wie im Handbuch des jeweiligen Geräts.</translation>
    </message>
    <message>
        <source>With &amp;BOM, so that spreadsheets recognise UTF-8</source>
        <translation>Mit &amp;BOM, damit Tabellenkalkulationen UTF-8 erkennen</translation>
    </message>
    <message>
        <source>Workbooks (*.xlsx)</source>
        <translation>Arbeitsmappen (*.xlsx)</translation>
    </message>
</context>
<context>
    <name>FactsModel</name>
    <message>
        <source>Found</source>
        <translation>Gefunden</translation>
    </message>
    <message>
        <source>Property</source>
        <translation>Eigenschaft</translation>
    </message>
</context>
<context>
    <name>FieldForm</name>
    <message>
        <source>1 cell</source>
        <translation>1 Zelle</translation>
    </message>
    <message>
        <source>Bar range</source>
        <translation>Balkenbereich</translation>
    </message>
    <message>
        <source>Blinks when</source>
        <translation>Blinkt, wenn</translation>
    </message>
    <message>
        <source>Change field</source>
        <translation>Feld ändern</translation>
    </message>
    <message>
        <source>Column</source>
        <translation>Spalte</translation>
    </message>
    <message>
        <source>Empty at</source>
        <translation>Leer bei</translation>
    </message>
    <message>
        <source>Entry</source>
        <translation>Eingabe</translation>
    </message>
    <message>
        <source>Full at</source>
        <translation>Voll bei</translation>
    </message>
    <message>
        <source>No field is selected. Put the cursor on one, or place a new one at the cursor with Ctrl+Enter.</source>
        <translation>Kein Feld ausgewählt. Den Cursor auf eines setzen oder am Cursor mit Strg+Eingabe ein neues platzieren.</translation>
    </message>
    <message>
        <source>Position of the first cell, counted from 1</source>
        <translation>Position der ersten Zelle, ab 1 gezählt</translation>
    </message>
    <message>
        <source>Properties of the signal</source>
        <translation>Eigenschaften des Signals</translation>
    </message>
    <message>
        <source>Required</source>
        <translation>Benötigt</translation>
    </message>
    <message>
        <source>Row</source>
        <translation>Zeile</translation>
    </message>
    <message>
        <source>Row, column</source>
        <translation>Zeile, Spalte</translation>
    </message>
    <message>
        <source>Shown as</source>
        <translation>Anzeige als</translation>
    </message>
    <message>
        <source>Signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>Values at which the bar is empty and full. Left blank: the limits of the signal</source>
        <translation>Werte, bei denen der Balken leer und voll ist. Ohne Angabe: die Grenzen des Signals</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Breite</translation>
    </message>
    <message>
        <source>an existing signal</source>
        <translation>ein vorhandenes Signal</translation>
    </message>
    <message>
        <source>any width</source>
        <translation>jede Breite</translation>
    </message>
    <message>
        <source>cells</source>
        <translation>Zellen</translation>
    </message>
    <message>
        <source>the operator may change it</source>
        <translation>der Bediener darf ihn ändern</translation>
    </message>
    <message>
        <source>to</source>
        <translation>bis</translation>
    </message>
    <message>
        <source>{cells} for {low} to {high} {unit}</source>
        <translation>{cells} für {low} bis {high} {unit}</translation>
    </message>
    <message>
        <source>{n} cells</source>
        <translation>{n} Zellen</translation>
    </message>
    <message>
        <source>{n} fields are selected. What you change here is changed in all of them.</source>
        <translation>{n} Felder sind gewählt. Was Sie hier ändern, ändert sich in allen.</translation>
    </message>
</context>
<context>
    <name>FileDrops</name>
    <message>
        <source>Drop it to import signals from {file}.</source>
        <translation>Loslassen importiert Signale aus {file}.</translation>
    </message>
    <message>
        <source>Drop it to open the project {file}.</source>
        <translation>Loslassen öffnet das Projekt {file}.</translation>
    </message>
    <message>
        <source>Drop it to play the recording {file}.</source>
        <translation>Loslassen spielt die Aufzeichnung {file} ab.</translation>
    </message>
    <message>
        <source>Only one file of this computer can be opened at a time.</source>
        <translation>Es kann immer nur eine Datei dieses Rechners geöffnet werden.</translation>
    </message>
    <message>
        <source>{file} is no project (.toml), no recording (.fanrec) and no register list ({endings}).</source>
        <translation>{file} ist kein Projekt (.toml), keine Aufzeichnung (.fanrec) und keine Registerliste ({endings}).</translation>
    </message>
</context>
<context>
    <name>FileStatus</name>
    <message>
        <source>Co&amp;mpare</source>
        <translation>&amp;Vergleichen</translation>
    </message>
    <message>
        <source>No recovery copy can be written to {folder}: {reason}. Save often.</source>
        <translation>In {folder} kann keine Sicherheitskopie geschrieben werden: {reason}. Oft speichern.</translation>
    </message>
    <message>
        <source>Re&amp;load</source>
        <translation>Neu &amp;laden</translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation>Speichern &amp;unter…</translation>
    </message>
    <message>
        <source>Save it &amp;there again</source>
        <translation>Dort wieder &amp;speichern</translation>
    </message>
    <message>
        <source>{file} has format {format} of an earlier Fanlight. Saving writes format {now}, which an earlier one cannot open; the present file is then kept as {backup}.</source>
        <translation>{file} hat Format {format} eines früheren Fanlight. Speichern schreibt Format {now}, das ein früheres nicht öffnen kann; die bisherige Datei bleibt dann als {backup}.</translation>
    </message>
    <message>
        <source>{file} is missing or cannot be read: deleted, renamed, or its disk was removed. This window holds the only copy.</source>
        <translation>{file} fehlt oder ist nicht lesbar: gelöscht, umbenannt, oder der Datenträger wurde entfernt. Nur dieses Fenster enthält noch den Inhalt.</translation>
    </message>
    <message>
        <source>{file} is open in another window too. You can edit it here; whichever window saves second asks before overwriting.</source>
        <translation>{file} ist auch in einem anderen Fenster offen. Bearbeiten ist hier möglich; das Fenster, das als zweites speichert, fragt vor dem Überschreiben.</translation>
    </message>
    <message>
        <source>{file} is read-only: you can edit it, but must save it under another name.</source>
        <translation>{file} ist schreibgeschützt: Bearbeiten ist möglich, Speichern nur unter anderem Namen.</translation>
    </message>
    <message>
        <source>{file} was changed by another program, and you have unsaved changes.</source>
        <translation>{file} wurde von einem anderen Programm geändert, und hier gibt es ungespeicherte Änderungen.</translation>
    </message>
    <message>
        <source>{file} was changed by another program.</source>
        <translation>{file} wurde von einem anderen Programm geändert.</translation>
    </message>
    <message>
        <source>{why} Nothing is open.</source>
        <translation>{why} Es ist nichts geöffnet.</translation>
    </message>
</context>
<context>
    <name>FindBar</name>
    <message>
        <source>&amp;Replace</source>
        <translation>&amp;Ersetzen</translation>
    </message>
    <message>
        <source>Both</source>
        <translation>Beides</translation>
    </message>
    <message>
        <source>Close the search</source>
        <translation>Suche schließen</translation>
    </message>
    <message>
        <source>Close the search (Escape)</source>
        <translation>Suche schließen (Esc)</translation>
    </message>
    <message>
        <source>Distinguish upper and lower case</source>
        <translation>Groß- und Kleinschreibung unterscheiden</translation>
    </message>
    <message>
        <source>Find</source>
        <translation>Suchen</translation>
    </message>
    <message>
        <source>Found: {count}</source>
        <translation>Gefunden: {count}</translation>
    </message>
    <message>
        <source>In the texts of the screens, or in the names of the signals that fields show</source>
        <translation>In den Texten der Bilder oder in den Namen der Signale, die Felder zeigen</translation>
    </message>
    <message>
        <source>Match &amp;case</source>
        <translation>&amp;Groß/klein</translation>
    </message>
    <message>
        <source>Matches not replaced</source>
        <translation>Nicht ersetzte Treffer</translation>
    </message>
    <message>
        <source>Next match</source>
        <translation>Nächster Treffer</translation>
    </message>
    <message>
        <source>Next match (F3)</source>
        <translation>Nächster Treffer (F3)</translation>
    </message>
    <message>
        <source>Not found</source>
        <translation>Nicht gefunden</translation>
    </message>
    <message>
        <source>Not replaced: screen &apos;{screen}&apos;, row {row}, column {column}: {reason}</source>
        <translation>Nicht ersetzt: Bild „{screen}“, Zeile {row}, Spalte {column}: {reason}</translation>
    </message>
    <message>
        <source>Previous match</source>
        <translation>Voriger Treffer</translation>
    </message>
    <message>
        <source>Previous match (Shift+F3)</source>
        <translation>Voriger Treffer (Umschalt+F3)</translation>
    </message>
    <message>
        <source>Replace</source>
        <translation>Ersetzen</translation>
    </message>
    <message>
        <source>Replace &amp;all</source>
        <translation>&amp;Alle ersetzen</translation>
    </message>
    <message>
        <source>Replace all</source>
        <translation>Alle ersetzen</translation>
    </message>
    <message>
        <source>Replace with</source>
        <translation>Ersetzen durch</translation>
    </message>
    <message>
        <source>Replaced: {count}</source>
        <translation>Ersetzt: {count}</translation>
    </message>
    <message>
        <source>Replaced: {count}, not replaced: {left}</source>
        <translation>Ersetzt: {count}, nicht ersetzt: {left}</translation>
    </message>
    <message>
        <source>Search in</source>
        <translation>Suchen in</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>Texts</source>
        <translation>Texte</translation>
    </message>
    <message>
        <source>Wh&amp;ole words</source>
        <translation>Ganze &amp;Wörter</translation>
    </message>
    <message>
        <source>{number} of {count}</source>
        <translation>{number} von {count}</translation>
    </message>
</context>
<context>
    <name>FindOutWindow</name>
    <message>
        <source>&amp;Add to this project</source>
        <translation>In dieses Projekt &amp;aufnehmen</translation>
    </message>
    <message>
        <source>&amp;Back</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>&amp;Close</source>
        <translation>S&amp;chließen</translation>
    </message>
    <message>
        <source>&amp;Go on searching</source>
        <translation>Weiter &amp;suchen</translation>
    </message>
    <message>
        <source>&amp;Keep looking</source>
        <translation>&amp;Offen lassen</translation>
    </message>
    <message>
        <source>&amp;Make a project of it</source>
        <translation>&amp;Projekt daraus anlegen</translation>
    </message>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>&amp;Next</source>
        <translation>&amp;Weiter</translation>
    </message>
    <message>
        <source>&amp;Save a snapshot and close…</source>
        <translation>Registerabbild &amp;speichern und schließen …</translation>
    </message>
    <message>
        <source>&amp;Search</source>
        <translation>&amp;Suchen</translation>
    </message>
    <message>
        <source>&amp;Search again</source>
        <translation>Erneut &amp;suchen</translation>
    </message>
    <message>
        <source>&amp;Search anew</source>
        <translation>&amp;Neu suchen</translation>
    </message>
    <message>
        <source>A search is at work</source>
        <translation>Eine Suche läuft</translation>
    </message>
    <message>
        <source>Another register has the name {name} already; this one is {given}.</source>
        <translation>Ein anderes Register heißt schon {name}; dieses heißt {given}.</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Close and forget what was found?</source>
        <translation>Schließen und vergessen, was gefunden wurde?</translation>
    </message>
    <message>
        <source>De&amp;vice</source>
        <translation>&amp;Gerät</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>End the search and close?</source>
        <translation>Suche beenden und schließen?</translation>
    </message>
    <message>
        <source>Find out</source>
        <translation>Herausfinden</translation>
    </message>
    <message>
        <source>Find out an unknown device</source>
        <translation>Unbekanntes Gerät ermitteln</translation>
    </message>
    <message>
        <source>In no file yet: {registers} registers of one device.</source>
        <translation>Noch in keiner Datei: {registers} Register eines Geräts.</translation>
    </message>
    <message>
        <source>In no file yet: {registers} registers of {devices} devices.</source>
        <translation>Noch in keiner Datei: {registers} Register von {devices} Geräten.</translation>
    </message>
    <message>
        <source>It becomes a signal of type uint16 without a scale, which can be changed in Design. Where you know what the device shows, “Which register?” finds type and scale.</source>
        <translation>Es wird ein Signal vom Typ uint16 ohne Skalierung; beides lässt sich im Entwurf ändern. Ist bekannt, was das Gerät anzeigt, findet „Welches Register?“ Typ und Skalierung.</translation>
    </message>
    <message>
        <source>It goes on at {place}. Stop it to look for unit {unit} at {other}.</source>
        <translation>Sie geht an {place} weiter. Stoppen, um Gerät {unit} an {other} zu suchen.</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Make &amp;project now</source>
        <translation>&amp;Projekt jetzt anlegen</translation>
    </message>
    <message>
        <source>Name this register</source>
        <translation>Register benennen</translation>
    </message>
    <message>
        <source>Names of registers: {count}. A project keeps them, a snapshot does not.</source>
        <translation>Namen von Registern: {count}. Ein Projekt bewahrt sie auf, ein Registerabbild nicht.</translation>
    </message>
    <message>
        <source>No project is open that it could be added to: open one first, or make one of it.</source>
        <translation>Es ist kein Projekt offen, dem es hinzugefügt werden könnte: zuerst eines öffnen oder daraus eines machen.</translation>
    </message>
    <message>
        <source>No project was made</source>
        <translation>Kein Projekt angelegt</translation>
    </message>
    <message>
        <source>No register could be read: the device did not answer.</source>
        <translation>Kein Register konnte gelesen werden: Das Gerät hat nicht geantwortet.</translation>
    </message>
    <message>
        <source>Nothing was added</source>
        <translation>Nichts aufgenommen</translation>
    </message>
    <message>
        <source>Nothing was saved</source>
        <translation>Nichts wurde gespeichert</translation>
    </message>
    <message>
        <source>Open a recording</source>
        <translation>Aufzeichnung öffnen</translation>
    </message>
    <message>
        <source>Project</source>
        <translation>Projekt</translation>
    </message>
    <message>
        <source>Recordings (*.fanrec)</source>
        <translation>Aufzeichnungen (*.fanrec)</translation>
    </message>
    <message>
        <source>Register snapshots (*.toml)</source>
        <translation>Registerabbilder (*.toml)</translation>
    </message>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Registers that have names: {count}. A project keeps them; make one first.</source>
        <translation>Benannte Register: {count}. Ein Projekt bewahrt sie; zuerst eines daraus anlegen.</translation>
    </message>
    <message>
        <source>S&amp;top</source>
        <translation>S&amp;topp</translation>
    </message>
    <message>
        <source>Save the snapshot as</source>
        <translation>Registerabbild speichern unter</translation>
    </message>
    <message>
        <source>Search</source>
        <translation>Suche</translation>
    </message>
    <message>
        <source>Search anew</source>
        <translation>Neu suchen</translation>
    </message>
    <message>
        <source>Search anew and forget what was found?</source>
        <translation>Neu suchen und das Gefundene verwerfen?</translation>
    </message>
    <message>
        <source>The line is busy; wait until the search has ended, or stop it.</source>
        <translation>Die Leitung ist belegt; das Ende der Suche abwarten oder sie stoppen.</translation>
    </message>
    <message>
        <source>What was tried until now would have to be tried again.</source>
        <translation>Was bisher versucht wurde, müsste noch einmal versucht werden.</translation>
    </message>
    <message>
        <source>Which register?</source>
        <translation>Welches Register?</translation>
    </message>
    <message>
        <source>With what is known now: the first registers of each device are shown.</source>
        <translation>Mit dem, was jetzt bekannt ist: Die ersten Register jedes Geräts werden angezeigt.</translation>
    </message>
    <message>
        <source>found</source>
        <translation>gefunden</translation>
    </message>
    <message>
        <source>unit {unit}</source>
        <translation>Gerät {unit}</translation>
    </message>
    <message>
        <source>unit {unit}, {name}</source>
        <translation>Gerät {unit}, {name}</translation>
    </message>
</context>
<context>
    <name>FindingDeeds</name>
    <message>
        <source>&amp;Reason</source>
        <translation>&amp;Begründung</translation>
    </message>
    <message>
        <source>Accept a finding</source>
        <translation>Prüfergebnis akzeptieren</translation>
    </message>
    <message>
        <source>Nothing changed: this problem no longer exists.</source>
        <translation>Nichts geändert: Dieses Problem besteht nicht mehr.</translation>
    </message>
    <message>
        <source>Nothing was found.</source>
        <translation>Es wurde nichts gefunden.</translation>
    </message>
    <message>
        <source>There is no automatic fix for this; press Enter to go to it.</source>
        <translation>Dafür gibt es keine automatische Abhilfe; die Eingabetaste führt zur Stelle.</translation>
    </message>
    <message>
        <source>Why is this acceptable?</source>
        <translation>Warum ist das in Ordnung?</translation>
    </message>
    <message>
        <source>Withdraw acceptance of a finding</source>
        <translation>Prüfergebnis nicht mehr akzeptieren</translation>
    </message>
</context>
<context>
    <name>FindingOut</name>
    <message>
        <source>&amp;Disconnect and search</source>
        <translation>&amp;Trennen und suchen</translation>
    </message>
    <message>
        <source>&amp;Find out a device…</source>
        <translation>Gerät er&amp;mitteln …</translation>
    </message>
    <message>
        <source>A project was made of what was found. Connect reads the device; writing stays off.</source>
        <translation>Aus dem Gefundenen wurde ein Projekt. „Verbinden“ liest das Gerät; Schreiben bleibt gesperrt.</translation>
    </message>
    <message>
        <source>A trial runs on this line. Stop it first, then search.</source>
        <translation>Auf dieser Leitung läuft eine Abnahme. Erst diese beenden, dann suchen.</translation>
    </message>
    <message>
        <source>Add what was found</source>
        <translation>Gefundenes aufnehmen</translation>
    </message>
    <message>
        <source>An unknown device is being looked for on this line. Stop that first, then connect.</source>
        <translation>Auf dieser Leitung wird gerade ein unbekanntes Gerät gesucht. Zuerst die Suche stoppen, dann verbinden.</translation>
    </message>
    <message>
        <source>Disconnect it and search?</source>
        <translation>Leitung trennen und suchen?</translation>
    </message>
    <message>
        <source>The panel and this search cannot ask on one line at the same time.</source>
        <translation>Panel und Suche können nicht gleichzeitig auf einer Leitung abfragen.</translation>
    </message>
    <message>
        <source>This line is armed: the panel operates a machine on it. Disarm and disconnect it first.</source>
        <translation>Auf dieser Leitung ist Schreiben freigegeben: Das Panel bedient eine Maschine. Zuerst sperren und trennen.</translation>
    </message>
    <message>
        <source>This line is connected</source>
        <translation>Diese Leitung ist verbunden</translation>
    </message>
    <message>
        <source>This line is connected. Disconnect it first (Line &gt; Disconnect), then search.</source>
        <translation>Diese Leitung ist verbunden. Zuerst trennen (Leitung &gt; Trennen), dann suchen.</translation>
    </message>
    <message>
        <source>What was found was added to the project; Undo takes it away again.</source>
        <translation>Das Gefundene wurde in das Projekt aufgenommen; „Rückgängig“ nimmt es wieder heraus.</translation>
    </message>
</context>
<context>
    <name>Findings</name>
    <message>
        <source>Fix: {words}</source>
        <translation>Beheben: {words}</translation>
    </message>
    <message>
        <source>Location</source>
        <translation>Stelle</translation>
    </message>
    <message>
        <source>Problem</source>
        <translation>Problem</translation>
    </message>
    <message>
        <source>Remedy</source>
        <translation>Abhilfe</translation>
    </message>
    <message>
        <source>Severity</source>
        <translation>Schweregrad</translation>
    </message>
    <message>
        <source>accepted</source>
        <translation>akzeptiert</translation>
    </message>
    <message>
        <source>error</source>
        <translation>Fehler</translation>
    </message>
    <message>
        <source>note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>pending</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>warning</source>
        <translation>Warnung</translation>
    </message>
</context>
<context>
    <name>FindingsList</name>
    <message>
        <source>&apos;{text}&apos; was not accepted: {reason}</source>
        <translation>„{text}“ wurde nicht übernommen: {reason}</translation>
    </message>
    <message>
        <source>Accepted: {count}</source>
        <translation>Akzeptiert: {count}</translation>
    </message>
    <message>
        <source>Accept…</source>
        <translation>Akzeptieren…</translation>
    </message>
    <message>
        <source>An error cannot be accepted: the panel cannot work as designed.</source>
        <translation>Ein Fehler kann nicht akzeptiert werden: Das Panel kann so nicht arbeiten.</translation>
    </message>
    <message>
        <source>Errors: {count}</source>
        <translation>Fehler: {count}</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Prüfergebnisse</translation>
    </message>
    <message>
        <source>Findings of the design checks</source>
        <translation>Ergebnisse der Entwurfsprüfung</translation>
    </message>
    <message>
        <source>Fix</source>
        <translation>Beheben</translation>
    </message>
    <message>
        <source>Fix: {words}</source>
        <translation>Beheben: {words}</translation>
    </message>
    <message>
        <source>Give a reason; it is kept in the file (Ctrl+Shift+F7)</source>
        <translation>Grund angeben; er wird in der Datei gespeichert (Strg+Umschalt+F7)</translation>
    </message>
    <message>
        <source>Hide</source>
        <translation>Ausblenden</translation>
    </message>
    <message>
        <source>No automatic fix; press Enter to go to the location.</source>
        <translation>Keine automatische Abhilfe; die Eingabetaste führt zur Stelle.</translation>
    </message>
    <message>
        <source>Notes: {count}</source>
        <translation>Hinweise: {count}</translation>
    </message>
    <message>
        <source>Order of the findings</source>
        <translation>Reihenfolge der Prüfergebnisse</translation>
    </message>
    <message>
        <source>Select a finding first.</source>
        <translation>Zuerst ein Prüfergebnis auswählen.</translation>
    </message>
    <message>
        <source>Show</source>
        <translation>Anzeigen</translation>
    </message>
    <message>
        <source>Warnings: {count}</source>
        <translation>Warnungen: {count}</translation>
    </message>
    <message>
        <source>Withdraw acceptance</source>
        <translation>Nicht mehr akzeptieren</translation>
    </message>
    <message>
        <source>a screen change</source>
        <translation>ein Bildwechsel</translation>
    </message>
    <message>
        <source>accepted: {reason}</source>
        <translation>akzeptiert: {reason}</translation>
    </message>
    <message>
        <source>an action</source>
        <translation>eine Aktion</translation>
    </message>
    <message>
        <source>by location</source>
        <translation>nach Stelle</translation>
    </message>
    <message>
        <source>by severity</source>
        <translation>nach Schweregrad</translation>
    </message>
    <message>
        <source>checking…</source>
        <translation>wird geprüft …</translation>
    </message>
    <message>
        <source>complete it there, or delete it</source>
        <translation>dort vervollständigen oder löschen</translation>
    </message>
    <message>
        <source>correct it there</source>
        <translation>dort berichtigen</translation>
    </message>
    <message>
        <source>incomplete and without effect; missing: {what}</source>
        <translation>unvollständig und ohne Wirkung; es fehlt: {what}</translation>
    </message>
    <message>
        <source>nothing found</source>
        <translation>nichts gefunden</translation>
    </message>
    <message>
        <source>the first {count} of {all} listed</source>
        <translation>die ersten {count} von {all} gelistet</translation>
    </message>
    <message>
        <source>{count} hidden</source>
        <translation>{count} ausgeblendet</translation>
    </message>
    <message>
        <source>{count} pending</source>
        <translation>{count} offen</translation>
    </message>
    <message>
        <source>{what}. Remedy: {hint}.</source>
        <translation>{what}. Abhilfe: {hint}.</translation>
    </message>
    <message>
        <source>{words} (Ctrl+F7). Can be undone.</source>
        <translation>{words} (Strg+F7). Lässt sich rückgängig machen.</translation>
    </message>
</context>
<context>
    <name>FindingsStrip</name>
    <message>
        <source>Findings</source>
        <translation>Prüfergebnisse</translation>
    </message>
    <message>
        <source>Go there</source>
        <translation>Zur Stelle</translation>
    </message>
    <message>
        <source>Go to the place of this finding</source>
        <translation>Zur Stelle dieses Prüfergebnisses</translation>
    </message>
    <message>
        <source>List all findings (F8)</source>
        <translation>Alle Prüfergebnisse auflisten (F8)</translation>
    </message>
    <message>
        <source>Next finding</source>
        <translation>Nächstes Prüfergebnis</translation>
    </message>
    <message>
        <source>Next finding (Ctrl+F8)</source>
        <translation>Nächstes Prüfergebnis (Strg+F8)</translation>
    </message>
    <message>
        <source>Previous finding</source>
        <translation>Vorheriges Prüfergebnis</translation>
    </message>
    <message>
        <source>Previous finding (Ctrl+Shift+F8)</source>
        <translation>Vorheriges Prüfergebnis (Strg+Umschalt+F8)</translation>
    </message>
    <message>
        <source>{words} (Ctrl+F7). Can be undone.</source>
        <translation>{words} (Strg+F7). Lässt sich rückgängig machen.</translation>
    </message>
</context>
<context>
    <name>FirstSteps</name>
    <message>
        <source>First steps</source>
        <translation>Erste Schritte</translation>
    </message>
    <message>
        <source>It comes back from the Help menu.</source>
        <translation>Über das Menü Hilfe kommt sie zurück.</translation>
    </message>
    <message>
        <source>Put this list away</source>
        <translation>Liste wegräumen</translation>
    </message>
    <message>
        <source>{done} of {all}</source>
        <translation>{done} von {all}</translation>
    </message>
    <message>
        <source>{step}: done</source>
        <translation>{step}: erledigt</translation>
    </message>
    <message>
        <source>{step}: to do</source>
        <translation>{step}: offen</translation>
    </message>
</context>
<context>
    <name>FollowerCard</name>
    <message>
        <source>&amp;Find out what is there…</source>
        <translation>&amp;Ermitteln, was dort ist …</translation>
    </message>
    <message>
        <source>, last answer {age} ago</source>
        <translation>, letzte Antwort vor {age}</translation>
    </message>
    <message>
        <source>, {ms} ms</source>
        <translation>, {ms} ms</translation>
    </message>
    <message>
        <source>All of what is wrong with {name}</source>
        <translation>Alles, was mit {name} nicht stimmt</translation>
    </message>
    <message>
        <source>Connect first</source>
        <translation>Zuerst verbinden</translation>
    </message>
    <message>
        <source>Connect to simulated devices first</source>
        <translation>Zuerst mit simulierten Geräten verbinden</translation>
    </message>
    <message>
        <source>Current</source>
        <translation>Strom</translation>
    </message>
    <message>
        <source>Faults</source>
        <translation>Störungen</translation>
    </message>
    <message>
        <source>Good answers</source>
        <translation>Gute Antworten</translation>
    </message>
    <message>
        <source>Inputs and line of {name}</source>
        <translation>Eingänge und Leitung von {name}</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Make it</source>
        <translation>Stellen</translation>
    </message>
    <message>
        <source>More…</source>
        <translation>Mehr…</translation>
    </message>
    <message>
        <source>No signal of this device may be written.</source>
        <translation>Kein Signal dieses Geräts darf geschrieben werden.</translation>
    </message>
    <message>
        <source>Other inputs, and line faults</source>
        <translation>Weitere Eingänge und Leitungsstörungen</translation>
    </message>
    <message>
        <source>Output</source>
        <translation>Ausgang</translation>
    </message>
    <message>
        <source>Requests</source>
        <translation>Anfragen</translation>
    </message>
    <message>
        <source>Set</source>
        <translation>Setzen</translation>
    </message>
    <message>
        <source>Speed</source>
        <translation>Drehzahl</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Torque</source>
        <translation>Drehmoment</translation>
    </message>
    <message>
        <source>Values of {name}</source>
        <translation>Werte von {name}</translation>
    </message>
    <message>
        <source>answering</source>
        <translation>antwortet</translation>
    </message>
    <message>
        <source>not answering</source>
        <translation>antwortet nicht</translation>
    </message>
    <message>
        <source>not connected</source>
        <translation>nicht verbunden</translation>
    </message>
    <message>
        <source>not polled yet</source>
        <translation>noch nicht abgefragt</translation>
    </message>
    <message>
        <source>unit address {unit}</source>
        <translation>Geräteadresse {unit}</translation>
    </message>
    <message>
        <source>unit address {unit}, line {line}</source>
        <translation>Geräteadresse {unit}, Leitung {line}</translation>
    </message>
    <message>
        <source>{where} · simulated</source>
        <translation>{where} · simuliert</translation>
    </message>
    <message>
        <source>{where} · time-out {ms} ms</source>
        <translation>{where} · Timeout {ms} ms</translation>
    </message>
</context>
<context>
    <name>FollowerCards</name>
    <message>
        <source>Devices</source>
        <translation>Geräte</translation>
    </message>
    <message>
        <source>answering</source>
        <translation>antwortet</translation>
    </message>
    <message>
        <source>not answering</source>
        <translation>antwortet nicht</translation>
    </message>
    <message>
        <source>not connected</source>
        <translation>nicht verbunden</translation>
    </message>
    <message>
        <source>{name}: {state}</source>
        <translation>{name}: {state}</translation>
    </message>
</context>
<context>
    <name>FollowerForm</name>
    <message>
        <source>&apos;{text}&apos; ends before it begins</source>
        <translation>„{text}“ endet, bevor es beginnt</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a range; write for example: holding 500-599, input 7</source>
        <translation>„{text}“ ist kein Bereich; Beispiel: holding 500-599, input 7</translation>
    </message>
    <message>
        <source>1/min</source>
        <translation>1/min</translation>
    </message>
    <message>
        <source>Address on the line: 1 to 247; on Modbus TCP also 255 or 0</source>
        <translation>Adresse an der Leitung: 1 bis 247; bei Modbus TCP auch 255 oder 0</translation>
    </message>
    <message>
        <source>Byte order</source>
        <translation>Byte-Reihenfolge</translation>
    </message>
    <message>
        <source>Change device</source>
        <translation>Gerät ändern</translation>
    </message>
    <message>
        <source>Communication time-out</source>
        <translation>Komm.-Timeout</translation>
    </message>
    <message>
        <source>Control word and status word of the drive&apos;s built-in registers</source>
        <translation>Steuerwort und Statuswort der eingebauten Register des Antriebs</translation>
    </message>
    <message>
        <source>Friction</source>
        <translation>Reibung</translation>
    </message>
    <message>
        <source>Function codes that the device offers for writing: 5, 6, 15, 16, and 22 (mask write)</source>
        <translation>Funktionscodes, die das Gerät zum Schreiben anbietet: 5, 6, 15, 16 und 22 (Schreiben mit Maske)</translation>
    </message>
    <message>
        <source>Gaps</source>
        <translation>Lücken</translation>
    </message>
    <message>
        <source>How the device is simulated when none is connected</source>
        <translation>Womit das Gerät simuliert wird</translation>
    </message>
    <message>
        <source>Inertia</source>
        <translation>Trägheit</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Load curve</source>
        <translation>Lastkennlinie</translation>
    </message>
    <message>
        <source>Load torque</source>
        <translation>Lastmoment</translation>
    </message>
    <message>
        <source>Most registers that the device returns in one read</source>
        <translation>So viele Register liefert das Gerät höchstens auf eine Anfrage</translation>
    </message>
    <message>
        <source>Motor power</source>
        <translation>Motorleistung</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Never read</source>
        <translation>Nie lesen</translation>
    </message>
    <message>
        <source>Numbering</source>
        <translation>Zählweise</translation>
    </message>
    <message>
        <source>Order of the two bytes in each word</source>
        <translation>Reihenfolge der zwei Bytes in jedem Wort</translation>
    </message>
    <message>
        <source>Order of the words in a value of two or more registers</source>
        <translation>Reihenfolge der Wörter in einem Wert aus zwei oder mehr Registern</translation>
    </message>
    <message>
        <source>Ranges in the device&apos;s numbering, e.g. holding 500-599, input 7. Never read, not even to bridge a gap</source>
        <translation>Bereiche in der Zählweise des Geräts, z. B. holding 500-599, input 7. Nie gelesen, auch nicht, um eine Lücke zu überbrücken</translation>
    </message>
    <message>
        <source>Rated speed</source>
        <translation>Nenndrehzahl</translation>
    </message>
    <message>
        <source>Rated voltage</source>
        <translation>Nennspannung</translation>
    </message>
    <message>
        <source>Reading and writing</source>
        <translation>Lesen und Schreiben</translation>
    </message>
    <message>
        <source>Register map</source>
        <translation>Registerbelegung</translation>
    </message>
    <message>
        <source>Register numbering used in its manual</source>
        <translation>Zählweise der Register in seinem Handbuch</translation>
    </message>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Registers per read</source>
        <translation>Register je Anfrage</translation>
    </message>
    <message>
        <source>Renaming updates every use</source>
        <translation>Umbenennen ändert auch alle Verwendungen</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>Simulated as</source>
        <translation>Simuliert als</translation>
    </message>
    <message>
        <source>Simulation</source>
        <translation>Simulation</translation>
    </message>
    <message>
        <source>The device stops by itself if not polled for this long. 0: not monitored</source>
        <translation>Das Gerät hält von selbst an, wenn es so lange nicht abgefragt wird. 0: nicht überwacht</translation>
    </message>
    <message>
        <source>Trip class</source>
        <translation>Auslöseklasse</translation>
    </message>
    <message>
        <source>Unit address</source>
        <translation>Geräteadresse</translation>
    </message>
    <message>
        <source>Word order</source>
        <translation>Wortreihenfolge</translation>
    </message>
    <message>
        <source>Writes with</source>
        <translation>Schreibt mit</translation>
    </message>
    <message>
        <source>bank of registers</source>
        <translation>Registerbank</translation>
    </message>
    <message>
        <source>built-in registers ({first} to {last}) until a signal is given a role</source>
        <translation>eingebaute Register ({first} bis {last}), bis ein Signal eine Rolle bekommt</translation>
    </message>
    <message>
        <source>constant at every speed: conveyor</source>
        <translation>bei jeder Drehzahl gleich: Förderband</translation>
    </message>
    <message>
        <source>drive with motor and load</source>
        <translation>Antrieb mit Motor und Last</translation>
    </message>
    <message>
        <source>from 0, as in the frames</source>
        <translation>ab 0, wie im Telegramm</translation>
    </message>
    <message>
        <source>from 1</source>
        <translation>ab 1</translation>
    </message>
    <message>
        <source>high first (standard)</source>
        <translation>höherwertiges zuerst (Standard)</translation>
    </message>
    <message>
        <source>low first</source>
        <translation>niederwertiges zuerst</translation>
    </message>
    <message>
        <source>may read across unused registers</source>
        <translation>unbenutzte Register dürfen mitgelesen werden</translation>
    </message>
    <message>
        <source>prefixed by the table (40001)</source>
        <translation>mit Ziffer der Tabelle (40001)</translation>
    </message>
    <message>
        <source>proportional to the speed: mixer</source>
        <translation>proportional zur Drehzahl: Rührwerk</translation>
    </message>
    <message>
        <source>registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>signals with a role: {count}</source>
        <translation>Signale mit Rolle: {count}</translation>
    </message>
    <message>
        <source>with the square of the speed: fan, pump</source>
        <translation>mit dem Quadrat der Drehzahl: Lüfter, Pumpe</translation>
    </message>
    <message>
        <source>x rated torque</source>
        <translation>x Nennmoment</translation>
    </message>
    <message>
        <source>{code} is not one of 5, 6, 15, 16 and 22</source>
        <translation>{code} ist keiner von 5, 6, 15, 16 und 22</translation>
    </message>
</context>
<context>
    <name>FoundRegistersModel</name>
    <message>
        <source>Decimal</source>
        <translation>Dezimal</translation>
    </message>
    <message>
        <source>Hexadecimal</source>
        <translation>Hexadezimal</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>With sign</source>
        <translation>Mit Vorzeichen</translation>
    </message>
</context>
<context>
    <name>FromHere</name>
    <message>
        <source>(delete it)</source>
        <translation>(löschen)</translation>
    </message>
    <message>
        <source>Delete screen change</source>
        <translation>Bildwechsel löschen</translation>
    </message>
    <message>
        <source>It holds on every screen; a choice here is for this screen alone.</source>
        <translation>Gilt auf jedem Bild; eine Auswahl hier gilt nur für dieses Bild.</translation>
    </message>
    <message>
        <source>No key leads on from here yet.</source>
        <translation>Noch führt keine Taste von hier weiter.</translation>
    </message>
    <message>
        <source>Redirect screen change</source>
        <translation>Bildwechsel umlenken</translation>
    </message>
    <message>
        <source>the next screen</source>
        <translation>das nächste Bild</translation>
    </message>
    <message>
        <source>the previous screen</source>
        <translation>das vorige Bild</translation>
    </message>
    <message>
        <source>{cause} shows</source>
        <translation>{cause} zeigt</translation>
    </message>
</context>
<context>
    <name>Header</name>
    <message>
        <source>Workspace: {name}</source>
        <translation>Arbeitsbereich: {name}</translation>
    </message>
    <message>
        <source>Workspaces</source>
        <translation>Arbeitsbereiche</translation>
    </message>
</context>
<context>
    <name>HeardModel</name>
    <message>
        <source>Answered</source>
        <translation>Beantwortet</translation>
    </message>
    <message>
        <source>Asks for</source>
        <translation>Fragt</translation>
    </message>
    <message>
        <source>Newest values</source>
        <translation>Neueste Werte</translation>
    </message>
    <message>
        <source>Unit address</source>
        <translation>Geräteadresse</translation>
    </message>
</context>
<context>
    <name>HoldButton</name>
    <message>
        <source>Press and hold, with the mouse or the space bar, until the bar is full.</source>
        <translation>Mit der Maus oder der Leertaste gedrückt halten, bis der Balken voll ist.</translation>
    </message>
</context>
<context>
    <name>ImportDialog</name>
    <message>
        <source>&amp;Import</source>
        <translation>&amp;Importieren</translation>
    </message>
    <message>
        <source>&amp;Import {count} of {all} signals</source>
        <translation>{count} von {all} Signalen &amp;importieren</translation>
    </message>
    <message>
        <source>Ch&amp;oose a file…</source>
        <translation>&amp;Datei wählen…</translation>
    </message>
    <message>
        <source>Choose a CSV or XLSX file with registers, or a SunSpec model (JSON).</source>
        <translation>Eine CSV- oder XLSX-Datei mit Registern oder ein SunSpec-Modell (JSON) wählen.</translation>
    </message>
    <message>
        <source>Choose a register list</source>
        <translation>Registerliste wählen</translation>
    </message>
    <message>
        <source>Columns are assigned as in the last list with these titles.</source>
        <translation>Die Spalten sind zugeordnet wie bei der letzten Liste mit diesen Titeln.</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Import signals</source>
        <translation>Signale importieren</translation>
    </message>
    <message>
        <source>New devices: {names}</source>
        <translation>Neue Geräte: {names}</translation>
    </message>
    <message>
        <source>New line: {name}</source>
        <translation>Neue Leitung: {name}</translation>
    </message>
    <message>
        <source>No column is assigned to the register yet; choose one above the table.</source>
        <translation>Dem Register ist noch keine Spalte zugeordnet; über der Tabelle eine wählen.</translation>
    </message>
    <message>
        <source>Nothing was imported: {reason}</source>
        <translation>Nichts wurde importiert: {reason}</translation>
    </message>
    <message>
        <source>Reading {file}…</source>
        <translation>{file} wird gelesen…</translation>
    </message>
    <message>
        <source>Register lists (*.csv *.txt *.tsv *.xlsx *.xlsm *.json);;All files (*)</source>
        <translation>Registerlisten (*.csv *.txt *.tsv *.xlsx *.xlsm *.json);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Result for the row</source>
        <translation>Ergebnis für die Zeile</translation>
    </message>
    <message>
        <source>Row {row} skipped: {why}</source>
        <translation>Zeile {row} übersprungen: {why}</translation>
    </message>
    <message>
        <source>Rows skipped because of errors: {count}</source>
        <translation>Wegen Fehlern übersprungene Zeilen: {count}</translation>
    </message>
    <message>
        <source>S&amp;top</source>
        <translation>&amp;Anhalten</translation>
    </message>
    <message>
        <source>Stopped. Nothing was changed; choose the file again, or another one.</source>
        <translation>Angehalten. Nichts wurde geändert; die Datei erneut oder eine andere wählen.</translation>
    </message>
    <message>
        <source>SunSpec sends the high byte first, but {follower} is set differently.</source>
        <translation>SunSpec sendet das höherwertige Byte zuerst, aber {follower} ist anders eingestellt.</translation>
    </message>
    <message>
        <source>Under another name: {count}</source>
        <translation>Unter anderem Namen: {count}</translation>
    </message>
    <message>
        <source>Updated: {count}</source>
        <translation>Aktualisiert: {count}</translation>
    </message>
    <message>
        <source>{names} and {count} more</source>
        <translation>{names} und {count} weitere</translation>
    </message>
</context>
<context>
    <name>InfoRow</name>
    <message>
        <source>different</source>
        <translation>verschieden</translation>
    </message>
</context>
<context>
    <name>InformationLine</name>
    <message>
        <source>Choose a cell, or type into the last row</source>
        <translation>Eine Zelle wählen oder in die letzte Zeile tippen</translation>
    </message>
    <message>
        <source>This one has none</source>
        <translation>Hier gibt es keinen Eintrag</translation>
    </message>
    <message>
        <source>{column} of a new row</source>
        <translation>{column} einer neuen Zeile</translation>
    </message>
    <message>
        <source>{column} of {count} rows</source>
        <translation>{column} von {count} Zeilen</translation>
    </message>
    <message>
        <source>{column} of {name}</source>
        <translation>{column} von {name}</translation>
    </message>
    <message>
        <source>{hint}; it cannot be edited</source>
        <translation>{hint}; nicht änderbar</translation>
    </message>
</context>
<context>
    <name>Inspector</name>
    <message>
        <source>No device is selected. Choose one in the table, or add one.</source>
        <translation>Kein Gerät ausgewählt. In der Tabelle eines wählen oder anlegen.</translation>
    </message>
    <message>
        <source>No line is selected. Choose one in the table, or add one.</source>
        <translation>Keine Leitung ausgewählt. In der Tabelle eine wählen oder anlegen.</translation>
    </message>
    <message>
        <source>No signal is selected. Choose one in the table, or add one.</source>
        <translation>Kein Signal ausgewählt. In der Tabelle eines wählen oder anlegen.</translation>
    </message>
</context>
<context>
    <name>KeyDeeds</name>
    <message>
        <source>clears</source>
        <translation>löscht</translation>
    </message>
    <message>
        <source>does what?</source>
        <translation>tut was?</translation>
    </message>
    <message>
        <source>edits</source>
        <translation>ändert</translation>
    </message>
    <message>
        <source>sets</source>
        <translation>setzt</translation>
    </message>
    <message>
        <source>sets while it is held</source>
        <translation>setzt, solange sie gedrückt ist</translation>
    </message>
    <message>
        <source>shows</source>
        <translation>zeigt</translation>
    </message>
    <message>
        <source>shows screen</source>
        <translation>zeigt Bild</translation>
    </message>
    <message>
        <source>switches</source>
        <translation>wechselt</translation>
    </message>
    <message>
        <source>switches to the next language</source>
        <translation>wechselt zur nächsten Sprache</translation>
    </message>
    <message>
        <source>toggles</source>
        <translation>invertiert</translation>
    </message>
    <message>
        <source>writes</source>
        <translation>schreibt</translation>
    </message>
    <message>
        <source>writes the value of</source>
        <translation>schreibt den Wert von</translation>
    </message>
    <message>
        <source>{do}</source>
        <translation>{do}</translation>
    </message>
    <message>
        <source>{do} to the next language</source>
        <translation>{do} zur nächsten Sprache</translation>
    </message>
    <message>
        <source>{do} {held} to {target}</source>
        <translation>{do} {held} in {target}</translation>
    </message>
    <message>
        <source>{do} {number} to {target}</source>
        <translation>{do} {number} in {target}</translation>
    </message>
    <message>
        <source>{do} {target}</source>
        <translation>{do} {target}</translation>
    </message>
    <message>
        <source>{do} {target} while it is held</source>
        <translation>{do} {target}, solange sie gedrückt ist</translation>
    </message>
    <message>
        <source>{do} {to}</source>
        <translation>{do} {to}</translation>
    </message>
</context>
<context>
    <name>KeyList</name>
    <message>
        <source>Key {key}: {words}</source>
        <translation>Taste {key}: {words}</translation>
    </message>
    <message>
        <source>The key &apos;{key}&apos; is the “Begin key” of the panel: it starts entry where a field allows it.</source>
        <translation>Die Taste „{key}“ ist im Panel als „Taste Beginnen“ gewählt: sie beginnt die Eingabe, wo ein Feld sie erlaubt.</translation>
    </message>
    <message>
        <source>{line}, everywhere</source>
        <translation>{line}, überall</translation>
    </message>
    <message>
        <source>{line}. Enter uses it</source>
        <translation>{line}. Die Eingabetaste belegt sie</translation>
    </message>
</context>
<context>
    <name>KeyPad</name>
    <message>
        <source>On the keyboard: %s</source>
        <translation>Auf der Tastatur: %s</translation>
    </message>
</context>
<context>
    <name>Keypad</name>
    <message>
        <source>down arrow key</source>
        <translation>Pfeiltaste ab</translation>
    </message>
    <message>
        <source>enter key</source>
        <translation>Eingabetaste</translation>
    </message>
    <message>
        <source>escape key</source>
        <translation>Abbruchtaste</translation>
    </message>
    <message>
        <source>left arrow key</source>
        <translation>Pfeiltaste links</translation>
    </message>
    <message>
        <source>reset key</source>
        <translation>Rücksetztaste</translation>
    </message>
    <message>
        <source>right arrow key</source>
        <translation>Pfeiltaste rechts</translation>
    </message>
    <message>
        <source>start key</source>
        <translation>Starttaste</translation>
    </message>
    <message>
        <source>stop key</source>
        <translation>Stopptaste</translation>
    </message>
    <message>
        <source>up arrow key</source>
        <translation>Pfeiltaste auf</translation>
    </message>
</context>
<context>
    <name>Keys</name>
    <message>
        <source>+ Use it</source>
        <translation>+ Belegen</translation>
    </message>
    <message>
        <source>edits {signal}</source>
        <translation>ändert {signal}</translation>
    </message>
    <message>
        <source>everywhere</source>
        <translation>überall</translation>
    </message>
    <message>
        <source>free</source>
        <translation>frei</translation>
    </message>
    <message>
        <source>new: not complete</source>
        <translation>neu: nicht vollständig</translation>
    </message>
</context>
<context>
    <name>KeysPane</name>
    <message>
        <source>Keys of the panel</source>
        <translation>Tasten des Panels</translation>
    </message>
    <message>
        <source>What each key does here</source>
        <translation>Was jede Taste hier tut</translation>
    </message>
</context>
<context>
    <name>LastMinutes</name>
    <message>
        <source>Save the last &amp;minutes as a recording…</source>
        <translation>Letzte &amp;Minuten als Aufzeichnung speichern…</translation>
    </message>
    <message>
        <source>Save the last minutes to a new file</source>
        <translation>Letzte Minuten in neuer Datei speichern</translation>
    </message>
    <message>
        <source>Saved in {name}: the last {minutes} min {seconds} s</source>
        <translation>Gespeichert in {name}: die letzten {minutes} min {seconds} s</translation>
    </message>
    <message>
        <source>Saving {name}…</source>
        <translation>{name} wird gespeichert…</translation>
    </message>
    <message>
        <source>saving is in progress</source>
        <translation>das Speichern läuft</translation>
    </message>
    <message>
        <source>there has been no connection yet</source>
        <translation>es gab noch keine Verbindung</translation>
    </message>
    <message>
        <source>{name} was not saved: it was stopped</source>
        <translation>{name} wurde nicht gespeichert: es wurde abgebrochen</translation>
    </message>
</context>
<context>
    <name>LeftPane</name>
    <message>
        <source>Select signals first, beside the panel or in their table.</source>
        <translation>Zuerst Signale auswählen, neben dem Panel oder in ihrer Tabelle.</translation>
    </message>
</context>
<context>
    <name>LimitsDialog</name>
    <message>
        <source>&amp;Keep only the newest</source>
        <translation>N&amp;ur die neuesten behalten</translation>
    </message>
    <message>
        <source>&amp;Set the limits</source>
        <translation>Grenzen &amp;setzen</translation>
    </message>
    <message>
        <source>A recording is a single file, regardless of its length.</source>
        <translation>Eine Aufzeichnung ist eine einzige Datei, unabhängig von ihrer Dauer.</translation>
    </message>
    <message>
        <source>A recording starts a new file after {time}.</source>
        <translation>Eine Aufzeichnung beginnt nach {time} eine neue Datei.</translation>
    </message>
    <message>
        <source>A recording starts a new file at {size} or after {time}.</source>
        <translation>Eine Aufzeichnung beginnt bei {size} oder nach {time} eine neue Datei.</translation>
    </message>
    <message>
        <source>A recording starts a new file at {size}.</source>
        <translation>Eine Aufzeichnung beginnt bei {size} eine neue Datei.</translation>
    </message>
    <message>
        <source>All files are kept.</source>
        <translation>Alle Dateien werden behalten.</translation>
    </message>
    <message>
        <source>Applies to all recordings of this window, including one in progress.</source>
        <translation>Gilt für alle Aufzeichnungen dieses Fensters, auch für eine laufende.</translation>
    </message>
    <message>
        <source>At most about {size} and {time} of a recording are kept; beyond that the oldest file is deleted.</source>
        <translation>Von einer Aufzeichnung werden höchstens etwa {size} und {time} behalten; darüber hinaus wird die älteste Datei gelöscht.</translation>
    </message>
    <message>
        <source>At most about {size} of a recording are kept; beyond that the oldest file is deleted.</source>
        <translation>Von einer Aufzeichnung werden höchstens etwa {size} behalten; darüber hinaus wird die älteste Datei gelöscht.</translation>
    </message>
    <message>
        <source>At most about {time} of a recording are kept; beyond that the oldest file is deleted.</source>
        <translation>Von einer Aufzeichnung werden höchstens etwa {time} behalten; darüber hinaus wird die älteste Datei gelöscht.</translation>
    </message>
    <message>
        <source>At most {most} files can be kept; 0 means all.</source>
        <translation>Höchstens {most} Dateien lassen sich behalten; 0 heißt alle.</translation>
    </message>
    <message>
        <source>Limits of recordings</source>
        <translation>Grenzen der Aufzeichnungen</translation>
    </message>
    <message>
        <source>MB</source>
        <translation>MB</translation>
    </message>
    <message>
        <source>Nothing is deleted.</source>
        <translation>Nichts wird gelöscht.</translation>
    </message>
    <message>
        <source>Number of files kept</source>
        <translation>Anzahl behaltener Dateien</translation>
    </message>
    <message>
        <source>Size of a file in MB</source>
        <translation>Größe einer Datei in MB</translation>
    </message>
    <message>
        <source>Start a new file &amp;at</source>
        <translation>Neue Datei beginnen a&amp;b</translation>
    </message>
    <message>
        <source>Start a new file a&amp;fter</source>
        <translation>Neue Datei beginnen &amp;nach</translation>
    </message>
    <message>
        <source>The number of files only applies when new files are started.</source>
        <translation>Die Anzahl der Dateien gilt nur, wenn neue Dateien begonnen werden.</translation>
    </message>
    <message>
        <source>The size of a file must be {least} to {most}.</source>
        <translation>Eine Datei muss {least} bis {most} groß sein.</translation>
    </message>
    <message>
        <source>The time of a file must be {least} to {most}.</source>
        <translation>Die Dauer einer Datei muss {least} bis {most} betragen.</translation>
    </message>
    <message>
        <source>Time of a file</source>
        <translation>Dauer einer Datei</translation>
    </message>
    <message>
        <source>Unit of the time of a file</source>
        <translation>Einheit der Dauer einer Datei</translation>
    </message>
    <message>
        <source>all</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>files</source>
        <translation>Dateien</translation>
    </message>
    <message>
        <source>hours</source>
        <translation>Stunden</translation>
    </message>
    <message>
        <source>minutes</source>
        <translation>Minuten</translation>
    </message>
    <message>
        <source>never</source>
        <translation>nie</translation>
    </message>
    <message>
        <source>seconds</source>
        <translation>Sekunden</translation>
    </message>
    <message>
        <source>{place}: {reason}</source>
        <translation>{place}: {reason}</translation>
    </message>
    <message>
        <source>⚠ Whenever a new file starts, everything recorded before it is deleted.</source>
        <translation>⚠ Sobald eine neue Datei beginnt, wird alles zuvor Aufgezeichnete gelöscht.</translation>
    </message>
</context>
<context>
    <name>LineCells</name>
    <message>
        <source>Address on the line: 1 to 247; on Modbus TCP also 255 or 0</source>
        <translation>Adresse an der Leitung: 1 bis 247; bei Modbus TCP auch 255 oder 0</translation>
    </message>
    <message>
        <source>Bus load</source>
        <translation>Buslast</translation>
    </message>
    <message>
        <source>Connection</source>
        <translation>Anschluss</translation>
    </message>
    <message>
        <source>How its manual counts registers</source>
        <translation>Wie sein Handbuch die Register zählt</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Longest wait for an answer, in milliseconds</source>
        <translation>Längste Wartezeit auf eine Antwort, in Millisekunden</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Numbering</source>
        <translation>Zählweise</translation>
    </message>
    <message>
        <source>Poll cycle</source>
        <translation>Abfragezyklus</translation>
    </message>
    <message>
        <source>Share of its time that the line reads, predicted; above 100 % it falls behind</source>
        <translation>Vorhergesagter Anteil der Zeit, in der die Leitung liest; über 100 % kommt sie nicht nach</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>Simulated as</source>
        <translation>Simuliert als</translation>
    </message>
    <message>
        <source>The port: COM3 19200 8E1; or the host and its TCP port: 192.168.0.10:502</source>
        <translation>Der Anschluss: COM3 19200 8E1; oder Host und TCP-Port: 192.168.0.10:502</translation>
    </message>
    <message>
        <source>Time in which all registers of the line are read once, predicted</source>
        <translation>Vorhergesagte Zeit, in der alle Register der Leitung einmal gelesen sind</translation>
    </message>
    <message>
        <source>Time-out</source>
        <translation>Timeout</translation>
    </message>
    <message>
        <source>Unit address</source>
        <translation>Geräteadresse</translation>
    </message>
    <message>
        <source>a device needs a line; add one first</source>
        <translation>ein Gerät braucht eine Leitung; zuerst eine anlegen</translation>
    </message>
    <message>
        <source>a new row needs a name</source>
        <translation>eine neue Zeile braucht einen Namen</translation>
    </message>
    <message>
        <source>device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>enter the port and its settings: COM3 19200 8E1</source>
        <translation>Anschluss und Einstellungen angeben: COM3 19200 8E1</translation>
    </message>
    <message>
        <source>line</source>
        <translation>Leitung</translation>
    </message>
</context>
<context>
    <name>LineFigures</name>
    <message>
        <source>Bus load</source>
        <translation>Buslast</translation>
    </message>
    <message>
        <source>Copy the statistics</source>
        <translation>Statistik kopieren</translation>
    </message>
    <message>
        <source>Faults</source>
        <translation>Störungen</translation>
    </message>
    <message>
        <source>Good answers</source>
        <translation>Gute Antworten</translation>
    </message>
    <message>
        <source>Outages</source>
        <translation>Ausfälle</translation>
    </message>
    <message>
        <source>Poll cycle</source>
        <translation>Abfragezyklus</translation>
    </message>
    <message>
        <source>Requests</source>
        <translation>Anfragen</translation>
    </message>
    <message>
        <source>Statistics</source>
        <translation>Statistik</translation>
    </message>
    <message>
        <source>Statistics of the line</source>
        <translation>Statistik der Leitung</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>{follower}: 95 % within</source>
        <translation>{follower}: 95 % unter</translation>
    </message>
    <message>
        <source>{follower}: longest</source>
        <translation>{follower}: längste</translation>
    </message>
    <message>
        <source>{follower}: response time</source>
        <translation>{follower}: Antwortzeit</translation>
    </message>
</context>
<context>
    <name>LineForm</name>
    <message>
        <source>Baud</source>
        <translation>Baud</translation>
    </message>
    <message>
        <source>Change line</source>
        <translation>Leitung ändern</translation>
    </message>
    <message>
        <source>Devices</source>
        <translation>Geräte</translation>
    </message>
    <message>
        <source>For example /dev/ttyUSB0 or COM3; Alt and arrow down show the ports of this computer</source>
        <translation>Zum Beispiel /dev/ttyUSB0 oder COM3; Alt und Pfeil nach unten zeigen die Anschlüsse dieses Rechners</translation>
    </message>
    <message>
        <source>Host</source>
        <translation>Host / IP-Adresse</translation>
    </message>
    <message>
        <source>Host name or IP address</source>
        <translation>Hostname oder IP-Adresse</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Longest wait for an answer</source>
        <translation>Längste Wartezeit auf eine Antwort</translation>
    </message>
    <message>
        <source>Modbus TCP</source>
        <translation>Modbus TCP</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Parity</source>
        <translation>Parität</translation>
    </message>
    <message>
        <source>Port</source>
        <translation>Anschluss</translation>
    </message>
    <message>
        <source>RTU frames over TCP</source>
        <translation>RTU-Telegramme über TCP</translation>
    </message>
    <message>
        <source>Renaming updates every use</source>
        <translation>Umbenennen ändert auch alle Verwendungen</translation>
    </message>
    <message>
        <source>Stop bits</source>
        <translation>Stoppbits</translation>
    </message>
    <message>
        <source>TCP port</source>
        <translation>TCP-Port</translation>
    </message>
    <message>
        <source>Time-out</source>
        <translation>Timeout</translation>
    </message>
    <message>
        <source>even</source>
        <translation>gerade</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>none yet</source>
        <translation>noch keine</translation>
    </message>
    <message>
        <source>odd</source>
        <translation>ungerade</translation>
    </message>
    <message>
        <source>serial port (RTU)</source>
        <translation>serieller Anschluss (RTU)</translation>
    </message>
</context>
<context>
    <name>LinePage</name>
    <message>
        <source>&amp;Never touch</source>
        <translation>&amp;Nie berühren</translation>
    </message>
    <message>
        <source>Before anything is asked</source>
        <translation>Bevor gefragt wird</translation>
    </message>
    <message>
        <source>Characters</source>
        <translation>Zeichen</translation>
    </message>
    <message>
        <source>Choose a serial port.</source>
        <translation>Einen seriellen Anschluss wählen.</translation>
    </message>
    <message>
        <source>Enter the host: its name or its IP address.</source>
        <translation>Den Host angeben: Name oder IP-Adresse.</translation>
    </message>
    <message>
        <source>Host</source>
        <translation>Host</translation>
    </message>
    <message>
        <source>Modbus TCP</source>
        <translation>Modbus TCP</translation>
    </message>
    <message>
        <source>Nothing: search all</source>
        <translation>Nichts: alles suchen</translation>
    </message>
    <message>
        <source>Parity and stop bits</source>
        <translation>Parität und Stoppbits</translation>
    </message>
    <message>
        <source>Port</source>
        <translation>Port</translation>
    </message>
    <message>
        <source>RTU over TCP</source>
        <translation>RTU über TCP</translation>
    </message>
    <message>
        <source>Reading can disturb a machine, too: where another client commands it, its requests are lost. Search on a line that nobody else uses. It listens first, and sends nothing while somebody speaks.</source>
        <translation>Auch Lesen kann eine Maschine stören: Wo ein anderer Client sie führt, gehen dessen Anfragen verloren. Nur an einer Leitung suchen, die niemand sonst benutzt. Zuerst wird gehört; solange jemand spricht, wird nichts gesendet.</translation>
    </message>
    <message>
        <source>Serial port</source>
        <translation>Serieller Anschluss</translation>
    </message>
    <message>
        <source>Some devices clear counters or faults when they are read. Name the registers that must not be touched: the search leaves them out from its first question on.</source>
        <translation>Manche Geräte löschen Zähler oder Störungen beim Lesen. Register nennen, die nicht berührt werden dürfen: Die Suche lässt sie von der ersten Anfrage an aus.</translation>
    </message>
    <message>
        <source>Some of it</source>
        <translation>Einiges</translation>
    </message>
    <message>
        <source>Speed</source>
        <translation>Geschwindigkeit</translation>
    </message>
    <message>
        <source>The machine is safe &amp;meanwhile, and I may do this.</source>
        <translation>&amp;Die Maschine ist dabei sicher, und ich darf das.</translation>
    </message>
    <message>
        <source>This search reads and never writes. It tries settings one after the other, which takes minutes.</source>
        <translation>Diese Suche liest und schreibt nie. Sie probiert Einstellungen nacheinander; das dauert Minuten.</translation>
    </message>
    <message>
        <source>Tick the sentence above first.</source>
        <translation>Zuerst den Satz darüber bestätigen.</translation>
    </message>
    <message>
        <source>Unit addresses</source>
        <translation>Geräteadressen</translation>
    </message>
    <message>
        <source>What is known already?</source>
        <translation>Was ist schon bekannt?</translation>
    </message>
    <message>
        <source>Where is the device connected?</source>
        <translation>Wo ist das Gerät angeschlossen?</translation>
    </message>
    <message>
        <source>all, or e.g. 1-20, 100</source>
        <translation>alle, oder z. B. 1-20, 100</translation>
    </message>
    <message>
        <source>any parity</source>
        <translation>jede Parität</translation>
    </message>
    <message>
        <source>any speed</source>
        <translation>jede Geschwindigkeit</translation>
    </message>
    <message>
        <source>e.g. 192.168.0.10</source>
        <translation>z. B. 192.168.0.10</translation>
    </message>
    <message>
        <source>“{part}” names no unit addresses; they are {least} to {most}, such as 1-20, 100</source>
        <translation>„{part}“ nennt keine Geräteadressen; möglich sind {least} bis {most}, etwa 1-20, 100</translation>
    </message>
</context>
<context>
    <name>LinePlace</name>
    <message>
        <source>List of &amp;transactions</source>
        <translation>Liste der &amp;Übertragungen</translation>
    </message>
    <message>
        <source>Own window</source>
        <translation>Eigenes Fenster</translation>
    </message>
    <message>
        <source>This transaction is no longer in the list</source>
        <translation>Diese Übertragung steht nicht mehr in der Liste</translation>
    </message>
</context>
<context>
    <name>LineRow</name>
    <message>
        <source>different</source>
        <translation>verschieden</translation>
    </message>
</context>
<context>
    <name>LineView</name>
    <message>
        <source>&amp;Copy one line each</source>
        <translation>Je eine &amp;Zeile kopieren</translation>
    </message>
    <message>
        <source>&amp;Pause</source>
        <translation>An&amp;halten</translation>
    </message>
    <message>
        <source>&amp;Save as text…</source>
        <translation>Als &amp;Text speichern…</translation>
    </message>
    <message>
        <source>All devices</source>
        <translation>Alle Geräte</translation>
    </message>
    <message>
        <source>C&amp;lear list</source>
        <translation>Liste &amp;leeren</translation>
    </message>
    <message>
        <source>Continue</source>
        <translation>Fortsetzen</translation>
    </message>
    <message>
        <source>Copy</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>Copy &amp;with explanation</source>
        <translation>&amp;Mit Erklärung kopieren</translation>
    </message>
    <message>
        <source>Copy one line each</source>
        <translation>Je eine Zeile kopieren</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Every byte explained (*.txt)</source>
        <translation>Jedes Byte erklärt (*.txt)</translation>
    </message>
    <message>
        <source>F&amp;ilter the transactions</source>
        <translation>Transaktionen &amp;filtern</translation>
    </message>
    <message>
        <source>Filter of the transactions</source>
        <translation>Filter der Transaktionen</translation>
    </message>
    <message>
        <source>Filter: part of a signal, fault, register or bytes</source>
        <translation>Filter: Teil von Signal, Störung, Register oder Bytes</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Newest</source>
        <translation>Neueste</translation>
    </message>
    <message>
        <source>Not saved</source>
        <translation>Nicht gespeichert</translation>
    </message>
    <message>
        <source>One line per transaction (*.txt)</source>
        <translation>Eine Zeile je Transaktion (*.txt)</translation>
    </message>
    <message>
        <source>Only &amp;faults</source>
        <translation>Nur &amp;Störungen</translation>
    </message>
    <message>
        <source>Only faults</source>
        <translation>Nur Störungen</translation>
    </message>
    <message>
        <source>Pause</source>
        <translation>Anhalten</translation>
    </message>
    <message>
        <source>Paused: {waiting} waiting</source>
        <translation>Angehalten: {waiting} warten</translation>
    </message>
    <message>
        <source>Save the transactions as text</source>
        <translation>Transaktionen als Text speichern</translation>
    </message>
    <message>
        <source>Save…</source>
        <translation>Speichern…</translation>
    </message>
    <message>
        <source>To the &amp;newest</source>
        <translation>Zur &amp;neuesten</translation>
    </message>
    <message>
        <source>the newest is shown</source>
        <translation>das Neueste ist zu sehen</translation>
    </message>
    <message>
        <source>{shown} of {total} shown</source>
        <translation>{shown} von {total} gezeigt</translation>
    </message>
    <message>
        <source>{total} shown</source>
        <translation>{total} gezeigt</translation>
    </message>
</context>
<context>
    <name>LinesView</name>
    <message>
        <source>A device needs a line; add one first.</source>
        <translation>Ein Gerät braucht eine Leitung; zuerst eine anlegen.</translation>
    </message>
    <message>
        <source>Add device</source>
        <translation>Gerät anlegen</translation>
    </message>
    <message>
        <source>Add line</source>
        <translation>Leitung anlegen</translation>
    </message>
    <message>
        <source>Change devices</source>
        <translation>Geräte ändern</translation>
    </message>
    <message>
        <source>Change lines</source>
        <translation>Leitungen ändern</translation>
    </message>
    <message>
        <source>Delete device</source>
        <translation>Gerät löschen</translation>
    </message>
    <message>
        <source>Delete line</source>
        <translation>Leitung löschen</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Devices</source>
        <translation>Geräte</translation>
    </message>
    <message>
        <source>Duplicate device</source>
        <translation>Gerät duplizieren</translation>
    </message>
    <message>
        <source>Duplicate line</source>
        <translation>Leitung duplizieren</translation>
    </message>
    <message>
        <source>Find out a device…</source>
        <translation>Gerät ermitteln …</translation>
    </message>
    <message>
        <source>Lines</source>
        <translation>Leitungen</translation>
    </message>
    <message>
        <source>Move device</source>
        <translation>Gerät verschieben</translation>
    </message>
    <message>
        <source>Move line</source>
        <translation>Leitung verschieben</translation>
    </message>
    <message>
        <source>No device yet. Insert adds one, once there is a line for it.</source>
        <translation>Noch kein Gerät. Einfg legt eines an, sobald es eine Leitung dafür gibt.</translation>
    </message>
    <message>
        <source>No line yet. Insert adds one.</source>
        <translation>Noch keine Leitung. Einfg legt eine an.</translation>
    </message>
    <message>
        <source>Paste devices</source>
        <translation>Geräte einfügen</translation>
    </message>
    <message>
        <source>Paste lines</source>
        <translation>Leitungen einfügen</translation>
    </message>
    <message>
        <source>Reorder devices</source>
        <translation>Geräte umordnen</translation>
    </message>
    <message>
        <source>Reorder lines</source>
        <translation>Leitungen umordnen</translation>
    </message>
</context>
<context>
    <name>LiveSession</name>
    <message>
        <source>The project has no line, so there is nothing to connect to. Add a line first.</source>
        <translation>Das Projekt hat keine Leitung, also nichts zum Verbinden. Zuerst eine Leitung anlegen.</translation>
    </message>
</context>
<context>
    <name>MainWindow</name>
    <message>
        <source>Checking the project…</source>
        <translation>Das Projekt wird geprüft…</translation>
    </message>
    <message>
        <source>Only a number in registers can be read in several ways.</source>
        <translation>Nur eine Zahl in Registern kann auf mehrere Weisen gelesen werden.</translation>
    </message>
    <message>
        <source>Register snapshot…</source>
        <translation>Registerabbild…</translation>
    </message>
    <message>
        <source>The case is in {name}</source>
        <translation>Der Fall steht in {name}</translation>
    </message>
    <message>
        <source>This takes effect when Fanlight is started the next time.</source>
        <translation>Das gilt ab dem nächsten Start von Fanlight.</translation>
    </message>
    <message>
        <source>{name}[*] – Fanlight</source>
        <translation>{name}[*] – Fanlight</translation>
    </message>
</context>
<context>
    <name>MapKeyboard</name>
    <message>
        <source>Page map</source>
        <translation>Bildplan</translation>
    </message>
    <message>
        <source>Screens selected: {names}</source>
        <translation>Ausgewählte Bilder: {names}</translation>
    </message>
    <message>
        <source>To move a screen within its ring, select it first.</source>
        <translation>Zum Verschieben im Ring zuerst ein Bild des Rings auswählen.</translation>
    </message>
</context>
<context>
    <name>MapView</name>
    <message>
        <source>No screens yet. Insert adds one.</source>
        <translation>Noch keine Bilder. Einfg legt eines an.</translation>
    </message>
</context>
<context>
    <name>MatchHeader</name>
    <message>
        <source>(ignore)</source>
        <translation>(ignorieren)</translation>
    </message>
    <message>
        <source>Column {letter}, {title}: assigned to</source>
        <translation>Spalte {letter}, {title}: zugeordnet zu</translation>
    </message>
    <message>
        <source>This column is ignored</source>
        <translation>Diese Spalte wird ignoriert</translation>
    </message>
</context>
<context>
    <name>MessagePreview</name>
    <message>
        <source>Message as shown on the panel</source>
        <translation>Meldung, wie das Panel sie anzeigt</translation>
    </message>
    <message>
        <source>Too long for some values; shorten it.</source>
        <translation>Für manche Werte zu lang; kürzen.</translation>
    </message>
</context>
<context>
    <name>MessageRow</name>
    <message>
        <source>If empty: “{words}”</source>
        <translation>Wenn leer: „{words}“</translation>
    </message>
</context>
<context>
    <name>MessagesForm</name>
    <message>
        <source>A key asks for something that is not possible here.</source>
        <translation>Eine Taste verlangt etwas, das hier nicht möglich ist.</translation>
    </message>
    <message>
        <source>A key starts an entry on a screen without an entry field.</source>
        <translation>Eine Taste beginnt eine Eingabe auf einem Bild ohne Eingabefeld.</translation>
    </message>
    <message>
        <source>A value could not be written for another reason.</source>
        <translation>Ein Wert konnte aus einem anderen Grund nicht geschrieben werden.</translation>
    </message>
    <message>
        <source>A value could not be written: the device answers with an exception.</source>
        <translation>Ein Wert konnte nicht geschrieben werden: Das Gerät antwortet mit einer Exception.</translation>
    </message>
    <message>
        <source>A value could not be written: the device does not answer.</source>
        <translation>Ein Wert konnte nicht geschrieben werden: Das Gerät antwortet nicht.</translation>
    </message>
    <message>
        <source>A value could not be written: the line is down.</source>
        <translation>Ein Wert konnte nicht geschrieben werden: Die Leitung ist unterbrochen.</translation>
    </message>
    <message>
        <source>A value is to be written, but writing is not armed.</source>
        <translation>Ein Wert soll geschrieben werden, aber das Schreiben ist gesperrt.</translation>
    </message>
    <message>
        <source>A value was sent, but it is not known whether the device accepted it.</source>
        <translation>Ein Wert wurde gesendet; ob das Gerät ihn übernommen hat, ist unbekannt.</translation>
    </message>
    <message>
        <source>A value was written, but a different one was read back.</source>
        <translation>Ein Wert wurde geschrieben, aber ein anderer zurückgelesen.</translation>
    </message>
    <message>
        <source>Above the limit</source>
        <translation>Über dem Grenzwert</translation>
    </message>
    <message>
        <source>Below the limit</source>
        <translation>Unter dem Grenzwert</translation>
    </message>
    <message>
        <source>Change message “{name}”</source>
        <translation>Meldung „{name}“ ändern</translation>
    </message>
    <message>
        <source>Condition still active</source>
        <translation>Bedingung steht noch an</translation>
    </message>
    <message>
        <source>Different value</source>
        <translation>Abweichender Wert</translation>
    </message>
    <message>
        <source>Fill in</source>
        <translation>Ergänzen</translation>
    </message>
    <message>
        <source>Fill in English</source>
        <translation>Auf Englisch ergänzen</translation>
    </message>
    <message>
        <source>Fill in German</source>
        <translation>Auf Deutsch ergänzen</translation>
    </message>
    <message>
        <source>Language</source>
        <translation>Sprache</translation>
    </message>
    <message>
        <source>Language in which all texts of the panel are shown and entered</source>
        <translation>Sprache, in der alle Texte des Panels angezeigt und eingegeben werden</translation>
    </message>
    <message>
        <source>No answer</source>
        <translation>Keine Antwort</translation>
    </message>
    <message>
        <source>No connection</source>
        <translation>Keine Verbindung</translation>
    </message>
    <message>
        <source>No entry here</source>
        <translation>Keine Eingabe</translation>
    </message>
    <message>
        <source>No more digits</source>
        <translation>Keine weitere Ziffer</translation>
    </message>
    <message>
        <source>No value yet</source>
        <translation>Noch kein Wert</translation>
    </message>
    <message>
        <source>Not armed</source>
        <translation>Schreiben gesperrt</translation>
    </message>
    <message>
        <source>Not possible</source>
        <translation>Nicht möglich</translation>
    </message>
    <message>
        <source>Not written</source>
        <translation>Nicht geschrieben</translation>
    </message>
    <message>
        <source>Nothing is missing in {language}.</source>
        <translation>Auf {language} fehlt nichts.</translation>
    </message>
    <message>
        <source>Nothing is missing: the panel has all messages in English already.</source>
        <translation>Es fehlt nichts: Das Panel hat alle Meldungen bereits auf Englisch.</translation>
    </message>
    <message>
        <source>Panel messages</source>
        <translation>Panelmeldungen</translation>
    </message>
    <message>
        <source>Panel messages in {language}</source>
        <translation>Panelmeldungen auf {language}</translation>
    </message>
    <message>
        <source>Read-only</source>
        <translation>Nur lesbar</translation>
    </message>
    <message>
        <source>Ready-made texts exist in English and German only.</source>
        <translation>Vorgefertigte Texte gibt es nur auf Englisch und Deutsch.</translation>
    </message>
    <message>
        <source>Ready-made texts exist in English and German; set the language in the properties of the panel.</source>
        <translation>Vorgefertigte Texte gibt es auf Englisch und Deutsch; die Sprache in den Eigenschaften des Panels angeben.</translation>
    </message>
    <message>
        <source>Refused</source>
        <translation>Abgelehnt</translation>
    </message>
    <message>
        <source>Room for one row of {columns} cells.</source>
        <translation>Platz für eine Zeile mit {columns} Zellen.</translation>
    </message>
    <message>
        <source>Room for {rows} rows of {columns} cells.</source>
        <translation>Platz für {rows} Zeilen mit {columns} Zellen.</translation>
    </message>
    <message>
        <source>The field has no cell left for another digit.</source>
        <translation>Im Feld ist keine Zelle für eine weitere Ziffer frei.</translation>
    </message>
    <message>
        <source>The longest value for {place} is “{value}”.</source>
        <translation>Der längste Wert für {place} ist „{value}“.</translation>
    </message>
    <message>
        <source>The operator enters a value above the limit of the signal.</source>
        <translation>Der Bediener gibt einen Wert über dem Grenzwert des Signals ein.</translation>
    </message>
    <message>
        <source>The operator enters a value below the limit of the signal.</source>
        <translation>Der Bediener gibt einen Wert unter dem Grenzwert des Signals ein.</translation>
    </message>
    <message>
        <source>The operator tries to leave a screen that is shown while a condition is true.</source>
        <translation>Der Bediener will ein Bild verlassen, das angezeigt wird, solange eine Bedingung erfüllt ist.</translation>
    </message>
    <message>
        <source>The value is a text or a register that must not be written.</source>
        <translation>Der Wert ist ein Text oder ein Register, das nicht geschrieben werden darf.</translation>
    </message>
    <message>
        <source>The value to be changed has not been read yet, or it is not good.</source>
        <translation>Der zu ändernde Wert wurde noch nicht gelesen oder ist nicht gut.</translation>
    </message>
    <message>
        <source>Unconfirmed</source>
        <translation>Unbestätigt</translation>
    </message>
    <message>
        <source>{place} is replaced by the value.</source>
        <translation>{place} wird durch den Wert ersetzt.</translation>
    </message>
</context>
<context>
    <name>ModelChoices</name>
    <message>
        <source>&amp;Address of the model&apos;s ID</source>
        <translation>&amp;Adresse der ID des Modells</translation>
    </message>
    <message>
        <source>Address of the model&apos;s ID</source>
        <translation>Adresse der ID des Modells</translation>
    </message>
    <message>
        <source>Each &amp;bit of a bitfield becomes a signal</source>
        <translation>Jedes &amp;Bit eines Bitfeldes wird ein Signal</translation>
    </message>
    <message>
        <source>In the device</source>
        <translation>Im Gerät</translation>
    </message>
    <message>
        <source>Number of {group}</source>
        <translation>Anzahl {group}</translation>
    </message>
    <message>
        <source>Repeats and scale factors</source>
        <translation>Wiederholungen und Skalierungsfaktoren</translation>
    </message>
    <message>
        <source>Scale factor {name}</source>
        <translation>Skalierungsfaktor {name}</translation>
    </message>
    <message>
        <source>The address is 0-based, as in the frames. Devices begin at 40000, 50000 or 0 with two registers that contain SunS; then follow the common model with 68 registers, and the others.</source>
        <translation>Die Adresse zählt ab 0, wie im Telegramm. Geräte beginnen bei 40000, 50000 oder 0 mit zwei Registern, die SunS enthalten; dann folgen das gemeinsame Modell mit 68 Registern und die übrigen.</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>unknown</source>
        <translation>unbekannt</translation>
    </message>
</context>
<context>
    <name>NamedModel</name>
    <message>
        <source>Data type</source>
        <translation>Datentyp</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Scale</source>
        <translation>Skalierung</translation>
    </message>
    <message>
        <source>Signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>Unit</source>
        <translation>Einheit</translation>
    </message>
    <message>
        <source>Unit address</source>
        <translation>Geräteadresse</translation>
    </message>
</context>
<context>
    <name>Navigator</name>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>No signal is selected, or nothing uses it yet.</source>
        <translation>Kein Signal ausgewählt, oder noch nirgends verwendet.</translation>
    </message>
    <message>
        <source>Panel</source>
        <translation>Panel</translation>
    </message>
    <message>
        <source>Screen change</source>
        <translation>Bildwechsel</translation>
    </message>
    <message>
        <source>Simulated devices</source>
        <translation>Simulierte Geräte</translation>
    </message>
    <message>
        <source>no field</source>
        <translation>kein Feld</translation>
    </message>
    <message>
        <source>{count} fields</source>
        <translation>{count} Felder</translation>
    </message>
    <message>
        <source>{count} signals</source>
        <translation>{count} Signale</translation>
    </message>
</context>
<context>
    <name>NeverTouch</name>
    <message>
        <source>Never touch</source>
        <translation>Nie berühren</translation>
    </message>
    <message>
        <source>e.g. holding:100-119, input:7</source>
        <translation>z. B. holding:100-119, input:7</translation>
    </message>
    <message>
        <source>“{part}” names no registers; write holding:100-119, with the wire addresses</source>
        <translation>„{part}“ nennt keine Register; Schreibweise holding:100-119, mit Adressen der Leitung</translation>
    </message>
</context>
<context>
    <name>NewPanelDialog</name>
    <message>
        <source>&amp;Keys</source>
        <translation>&amp;Tasten</translation>
    </message>
    <message>
        <source>&amp;Line</source>
        <translation>&amp;Leitung</translation>
    </message>
    <message>
        <source>&amp;Make it</source>
        <translation>&amp;Anlegen</translation>
    </message>
    <message>
        <source>&amp;Panel</source>
        <translation>&amp;Panel</translation>
    </message>
    <message>
        <source>&amp;Registers</source>
        <translation>&amp;Register</translation>
    </message>
    <message>
        <source>&amp;Start from</source>
        <translation>&amp;Vorlage</translation>
    </message>
    <message>
        <source>&amp;Title</source>
        <translation>T&amp;itel</translation>
    </message>
    <message>
        <source>&amp;Unit address</source>
        <translation>&amp;Geräteadresse</translation>
    </message>
    <message>
        <source>Asked for drives only: their control words differ</source>
        <translation>Nur bei Antrieben gefragt: deren Steuerwörter unterscheiden sich</translation>
    </message>
    <message>
        <source>Columns</source>
        <translation>Spalten</translation>
    </message>
    <message>
        <source>Everything can be changed later.</source>
        <translation>Alles lässt sich später ändern.</translation>
    </message>
    <message>
        <source>Host</source>
        <translation>Host</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>Make it and &amp;connect</source>
        <translation>Anlegen und ver&amp;binden</translation>
    </message>
    <message>
        <source>Make it and &amp;import a list…</source>
        <translation>Anlegen und Liste i&amp;mportieren…</translation>
    </message>
    <message>
        <source>New panel</source>
        <translation>Neues Panel</translation>
    </message>
    <message>
        <source>Nothing real can move.</source>
        <translation>Nichts Echtes kann sich bewegen.</translation>
    </message>
    <message>
        <source>Panel size</source>
        <translation>Panelgröße</translation>
    </message>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Rows</source>
        <translation>Zeilen</translation>
    </message>
    <message>
        <source>Start from</source>
        <translation>Vorlage</translation>
    </message>
    <message>
        <source>What shall the panel do?</source>
        <translation>Was soll das Panel können?</translation>
    </message>
    <message>
        <source>another size</source>
        <translation>andere Größe</translation>
    </message>
    <message>
        <source>e.g. 192.0.2.20, or 192.0.2.20:1502</source>
        <translation>z. B. 192.0.2.20 oder 192.0.2.20:1502</translation>
    </message>
    <message>
        <source>e.g. {title}</source>
        <translation>z. B. {title}</translation>
    </message>
    <message>
        <source>{rows} rows of {columns}</source>
        <translation>{rows} Zeilen zu {columns}</translation>
    </message>
</context>
<context>
    <name>NotesList</name>
    <message>
        <source>Copy the selected notes</source>
        <translation>Ausgewählte Hinweise kopieren</translation>
    </message>
    <message>
        <source>Notes on rows</source>
        <translation>Hinweise zu Zeilen</translation>
    </message>
</context>
<context>
    <name>NotesModel</name>
    <message>
        <source>Cell</source>
        <translation>Zelle</translation>
    </message>
    <message>
        <source>Column</source>
        <translation>Spalte</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>Row</source>
        <translation>Zeile</translation>
    </message>
</context>
<context>
    <name>NotesRow</name>
    <message>
        <source>different</source>
        <translation>verschieden</translation>
    </message>
</context>
<context>
    <name>Notice</name>
    <message>
        <source>Close the message</source>
        <translation>Meldung schließen</translation>
    </message>
</context>
<context>
    <name>NoticeSlot</name>
    <message>
        <source>Close the message</source>
        <translation>Meldung schließen</translation>
    </message>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>What was said last</source>
        <translation>Zuletzt gemeldet</translation>
    </message>
</context>
<context>
    <name>NumberingDialog</name>
    <message>
        <source># stands for the number, ## for at least two digits</source>
        <translation># steht für die Nummer, ## für mindestens zwei Ziffern</translation>
    </message>
    <message>
        <source>&amp;First number</source>
        <translation>&amp;Erste Nummer</translation>
    </message>
    <message>
        <source>&amp;Pattern (# is the number)</source>
        <translation>&amp;Muster (# ist die Nummer)</translation>
    </message>
    <message>
        <source>&amp;Rename</source>
        <translation>&amp;Umbenennen</translation>
    </message>
    <message>
        <source>&amp;Step</source>
        <translation>&amp;Schrittweite</translation>
    </message>
    <message>
        <source>Current name</source>
        <translation>Bisheriger Name</translation>
    </message>
    <message>
        <source>Everything that uses these signals follows their new names.</source>
        <translation>Alles, was diese Signale verwendet, folgt den neuen Namen.</translation>
    </message>
    <message>
        <source>First number</source>
        <translation>Erste Nummer</translation>
    </message>
    <message>
        <source>New name</source>
        <translation>Neuer Name</translation>
    </message>
    <message>
        <source>Number the names</source>
        <translation>Namen nummerieren</translation>
    </message>
    <message>
        <source>Pattern</source>
        <translation>Muster</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Schrittweite</translation>
    </message>
</context>
<context>
    <name>Observation</name>
    <message>
        <source>Nothing is connected, so there is nothing to record. Connect first.</source>
        <translation>Keine Verbindung, daher nichts aufzuzeichnen. Zuerst verbinden.</translation>
    </message>
</context>
<context>
    <name>Overwriting</name>
    <message>
        <source>&amp;Insert {count}</source>
        <translation>Als &amp;neue Zeilen: {count}</translation>
    </message>
    <message>
        <source>&amp;Replace {count}</source>
        <translation>&amp;Ersetzen: {count}</translation>
    </message>
    <message>
        <source>(empty)</source>
        <translation>(leer)</translation>
    </message>
    <message>
        <source>Cells that are not selected would get other contents: {count}</source>
        <translation>Nicht ausgewählte Zellen, deren Inhalt sich ändern würde: {count}</translation>
    </message>
    <message>
        <source>Paste over cells</source>
        <translation>Über Zellen einfügen</translation>
    </message>
    <message>
        <source>Replace rows: {replaced}, or insert rows: {pasted}?</source>
        <translation>Vorhandene Zeilen ersetzen ({replaced}) oder neue Zeilen einfügen ({pasted})?</translation>
    </message>
    <message>
        <source>and {count} more</source>
        <translation>und {count} weitere</translation>
    </message>
    <message>
        <source>{name}, {column}: {old} → {new}</source>
        <translation>{name}, {column}: {old} → {new}</translation>
    </message>
</context>
<context>
    <name>OwnKeys</name>
    <message>
        <source>Accept and go down or up</source>
        <translation>Übernehmen und nach unten oder oben</translation>
    </message>
    <message>
        <source>Accept and go to the next or previous cell</source>
        <translation>Übernehmen und zur nächsten oder vorigen Zelle</translation>
    </message>
    <message>
        <source>Accept in all selected rows</source>
        <translation>In alle ausgewählten Zeilen übernehmen</translation>
    </message>
    <message>
        <source>Add a row, or choose its kind first</source>
        <translation>Zeile anlegen oder zuerst ihre Art wählen</translation>
    </message>
    <message>
        <source>Add a screen</source>
        <translation>Bild anlegen</translation>
    </message>
    <message>
        <source>Also select the next screen in that direction</source>
        <translation>Auch das nächste Bild in dieser Richtung auswählen</translation>
    </message>
    <message>
        <source>Another line</source>
        <translation>Andere Leitung</translation>
    </message>
    <message>
        <source>Cancel the change</source>
        <translation>Änderung verwerfen</translation>
    </message>
    <message>
        <source>Close the search, or clear the selection</source>
        <translation>Suche schließen oder Auswahl aufheben</translation>
    </message>
    <message>
        <source>Copy the current cell to all selected rows</source>
        <translation>Aktuelle Zelle in alle ausgewählten Zeilen übernehmen</translation>
    </message>
    <message>
        <source>Cut the cells</source>
        <translation>Zellen ausschneiden</translation>
    </message>
    <message>
        <source>Delete the selected fields, or the character at or before the cursor</source>
        <translation>Ausgewählte Felder oder das Zeichen am oder vor dem Cursor löschen</translation>
    </message>
    <message>
        <source>Delete the selection</source>
        <translation>Auswahl löschen</translation>
    </message>
    <message>
        <source>Delete whole rows, or clear the selected cells</source>
        <translation>Ganze Zeilen löschen oder die ausgewählten Zellen leeren</translation>
    </message>
    <message>
        <source>Deselect the transaction</source>
        <translation>Auswahl der Transaktion aufheben</translation>
    </message>
    <message>
        <source>Edit the content; typing replaces it</source>
        <translation>Inhalt bearbeiten; Tippen ersetzt ihn</translation>
    </message>
    <message>
        <source>Edit the previous or next screen</source>
        <translation>Voriges oder nächstes Bild bearbeiten</translation>
    </message>
    <message>
        <source>Edit the screen</source>
        <translation>Bild bearbeiten</translation>
    </message>
    <message>
        <source>Edit the screen or the properties of the screen change</source>
        <translation>Bild oder Eigenschaften des Bildwechsels bearbeiten</translation>
    </message>
    <message>
        <source>Editing a cell</source>
        <translation>Beim Bearbeiten einer Zelle</translation>
    </message>
    <message>
        <source>Everywhere else</source>
        <translation>Überall sonst</translation>
    </message>
    <message>
        <source>Go down or up a row</source>
        <translation>Eine Zeile nach unten oder oben</translation>
    </message>
    <message>
        <source>Go to the beginning or end of the row</source>
        <translation>Zum Anfang oder Ende der Zeile</translation>
    </message>
    <message>
        <source>Go to the first or last cell of the screen</source>
        <translation>Zur ersten oder letzten Zelle des Bildes</translation>
    </message>
    <message>
        <source>Go to the menu bar</source>
        <translation>Zur Menüleiste</translation>
    </message>
    <message>
        <source>Go to the next or previous area</source>
        <translation>Zum nächsten oder vorigen Bereich</translation>
    </message>
    <message>
        <source>Go to the next or previous cell that can be edited, also into the next row</source>
        <translation>Zur nächsten oder vorigen änderbaren Zelle, auch in die nächste Zeile</translation>
    </message>
    <message>
        <source>Go to the next screen in that direction</source>
        <translation>Zum nächsten Bild in dieser Richtung</translation>
    </message>
    <message>
        <source>Go to the previous or next field; at the end of the screen, start over</source>
        <translation>Zum vorigen oder nächsten Feld; am Ende des Bildes weiter am Anfang</translation>
    </message>
    <message>
        <source>Go to the start screen</source>
        <translation>Zum Startbild</translation>
    </message>
    <message>
        <source>In the findings: go to the location</source>
        <translation>In den Prüfergebnissen: zur Stelle</translation>
    </message>
    <message>
        <source>Leave the table for the next or previous area</source>
        <translation>Die Tabelle verlassen, zum nächsten oder vorigen Bereich</translation>
    </message>
    <message>
        <source>Line strip</source>
        <translation>Leitungsstreifen</translation>
    </message>
    <message>
        <source>List of screens</source>
        <translation>Liste der Bilder</translation>
    </message>
    <message>
        <source>Move the cursor</source>
        <translation>Cursor bewegen</translation>
    </message>
    <message>
        <source>Move the selected screen backward or forward in its ring</source>
        <translation>Ausgewähltes Bild in seinem Ring zurück oder vor verschieben</translation>
    </message>
    <message>
        <source>Move the selected screens</source>
        <translation>Ausgewählte Bilder verschieben</translation>
    </message>
    <message>
        <source>On a field: try the panel here; press again to go back to editing</source>
        <translation>Auf einem Feld: das Panel hier ausprobieren; noch einmal: zurück zum Bearbeiten</translation>
    </message>
    <message>
        <source>Open a menu by its underlined letter</source>
        <translation>Menü über seinen unterstrichenen Buchstaben öffnen</translation>
    </message>
    <message>
        <source>Open the context menu</source>
        <translation>Kontextmenü öffnen</translation>
    </message>
    <message>
        <source>Open the properties of the field, or go to the beginning of the next row</source>
        <translation>Eigenschaften des Feldes öffnen oder zum Anfang der nächsten Zeile</translation>
    </message>
    <message>
        <source>Page map</source>
        <translation>Bildplan</translation>
    </message>
    <message>
        <source>Place the selected signals at the cursor</source>
        <translation>Ausgewählte Signale am Cursor platzieren</translation>
    </message>
    <message>
        <source>Place the value only</source>
        <translation>Nur den Wert platzieren</translation>
    </message>
    <message>
        <source>Press the button, check box or panel key that has the focus</source>
        <translation>Schaltfläche, Kontrollkästchen oder Paneltaste mit dem Fokus drücken</translation>
    </message>
    <message>
        <source>Previous or next transaction</source>
        <translation>Vorige oder nächste Transaktion</translation>
    </message>
    <message>
        <source>Properties of the row</source>
        <translation>Eigenschaften der Zeile</translation>
    </message>
    <message>
        <source>Rename the screen</source>
        <translation>Bild umbenennen</translation>
    </message>
    <message>
        <source>Screen editor</source>
        <translation>Bildeditor</translation>
    </message>
    <message>
        <source>Search</source>
        <translation>Suchen</translation>
    </message>
    <message>
        <source>Select a block of cells</source>
        <translation>Block von Zellen auswählen</translation>
    </message>
    <message>
        <source>Select all</source>
        <translation>Alles auswählen</translation>
    </message>
    <message>
        <source>Select the current cell only; if it is, leave the table</source>
        <translation>Nur die aktuelle Zelle auswählen; ist es nur sie, die Tabelle verlassen</translation>
    </message>
    <message>
        <source>Select the previous or next screen change</source>
        <translation>Vorigen oder nächsten Bildwechsel auswählen</translation>
    </message>
    <message>
        <source>Select the whole rows</source>
        <translation>Ganze Zeilen auswählen</translation>
    </message>
    <message>
        <source>Select to the beginning or end of the row or the screen</source>
        <translation>Bis zum Anfang oder Ende der Zeile oder des Bildes auswählen</translation>
    </message>
    <message>
        <source>Show the choices</source>
        <translation>Auswahlliste anzeigen</translation>
    </message>
    <message>
        <source>Show the transaction in the line view</source>
        <translation>Transaktion in der Leitungsansicht anzeigen</translation>
    </message>
    <message>
        <source>Show the whole map</source>
        <translation>Ganzen Plan anzeigen</translation>
    </message>
    <message>
        <source>Signals beside the panel</source>
        <translation>Signale neben dem Panel</translation>
    </message>
    <message>
        <source>Tables in Design</source>
        <translation>Tabellen im Entwurf</translation>
    </message>
    <message>
        <source>Zoom in or out</source>
        <translation>Vergrößern oder verkleinern</translation>
    </message>
</context>
<context>
    <name>PageMap</name>
    <message>
        <source>1 key</source>
        <translation>1 Taste</translation>
    </message>
    <message>
        <source>1 press</source>
        <translation>1× Taste</translation>
    </message>
    <message>
        <source>Errors: {count}</source>
        <translation>Fehler: {count}</translation>
    </message>
    <message>
        <source>From every screen to {to}: {cause}</source>
        <translation>Von jedem Bild zu {to}: {cause}</translation>
    </message>
    <message>
        <source>From {screen}: {cause}</source>
        <translation>Von {screen}: {cause}</translation>
    </message>
    <message>
        <source>Screen change from every screen to {to}: {cause}</source>
        <translation>Bildwechsel von jedem Bild zu {to}: {cause}</translation>
    </message>
    <message>
        <source>Screen change from {from_} to {to}: {cause}</source>
        <translation>Bildwechsel von {from_} zu {to}: {cause}</translation>
    </message>
    <message>
        <source>Screens: {screens}. Arrows: {arrows}</source>
        <translation>Bilder: {screens}. Pfeile: {arrows}</translation>
    </message>
    <message>
        <source>Shown without a key</source>
        <translation>Ohne Taste gezeigt</translation>
    </message>
    <message>
        <source>Warnings: {count}</source>
        <translation>Warnungen: {count}</translation>
    </message>
    <message>
        <source>after {seconds} s without a key</source>
        <translation>nach {seconds} s ohne Taste</translation>
    </message>
    <message>
        <source>by condition only</source>
        <translation>nur per Bedingung</translation>
    </message>
    <message>
        <source>every screen</source>
        <translation>jedem Bild</translation>
    </message>
    <message>
        <source>free</source>
        <translation>frei</translation>
    </message>
    <message>
        <source>goes back by itself</source>
        <translation>geht von selbst zurück</translation>
    </message>
    <message>
        <source>goes to {screen}</source>
        <translation>wechselt zu {screen}</translation>
    </message>
    <message>
        <source>goes to {screen}, from every screen</source>
        <translation>wechselt von jedem Bild zu {screen}</translation>
    </message>
    <message>
        <source>key {key}</source>
        <translation>Taste {key}</translation>
    </message>
    <message>
        <source>no way back</source>
        <translation>kein Weg zurück</translation>
    </message>
    <message>
        <source>nothing yet</source>
        <translation>noch nichts</translation>
    </message>
    <message>
        <source>number {n} of {count} in the ring</source>
        <translation>Nummer {n} von {count} im Ring</translation>
    </message>
    <message>
        <source>ring {n}/{count}</source>
        <translation>Ring {n}/{count}</translation>
    </message>
    <message>
        <source>start</source>
        <translation>Start</translation>
    </message>
    <message>
        <source>unreachable</source>
        <translation>nicht erreichbar</translation>
    </message>
    <message>
        <source>{key} leads back</source>
        <translation>{key} führt zurück</translation>
    </message>
    <message>
        <source>{key}, any screen</source>
        <translation>{key}, jedes Bild</translation>
    </message>
    <message>
        <source>{key}: {uses}. Drag it to the screen that it should go to.</source>
        <translation>{key}: {uses}. Auf das Bild ziehen, zu dem sie wechseln soll.</translation>
    </message>
    <message>
        <source>{label} and {n} more</source>
        <translation>{label} und {n} weitere</translation>
    </message>
    <message>
        <source>{n} keys</source>
        <translation>{n} Tasten</translation>
    </message>
    <message>
        <source>{n} presses</source>
        <translation>{n}× Taste</translation>
    </message>
    <message>
        <source>{screen_change}; {n} of {count} here</source>
        <translation>{screen_change}; {n} von {count} hier</translation>
    </message>
</context>
<context>
    <name>PageMapPane</name>
    <message>
        <source>&amp;Add a screen here</source>
        <translation>Bild hier &amp;anlegen</translation>
    </message>
    <message>
        <source>&amp;Delete the screen</source>
        <translation>Bild &amp;löschen</translation>
    </message>
    <message>
        <source>&amp;Delete the screen change</source>
        <translation>Bildwechsel &amp;löschen</translation>
    </message>
    <message>
        <source>&amp;Delete the selection</source>
        <translation>Auswahl &amp;löschen</translation>
    </message>
    <message>
        <source>&amp;Earlier in the ring</source>
        <translation>Im Ring &amp;früher</translation>
    </message>
    <message>
        <source>&amp;Find a screen on the map</source>
        <translation>Bild im Plan &amp;suchen</translation>
    </message>
    <message>
        <source>&amp;Later in the ring</source>
        <translation>Im Ring s&amp;päter</translation>
    </message>
    <message>
        <source>&amp;Make it the start screen</source>
        <translation>Zum S&amp;tartbild machen</translation>
    </message>
    <message>
        <source>&amp;Open</source>
        <translation>&amp;Bild öffnen</translation>
    </message>
    <message>
        <source>&amp;Properties</source>
        <translation>&amp;Eigenschaften</translation>
    </message>
    <message>
        <source>&amp;Zoom in</source>
        <translation>V&amp;ergrößern</translation>
    </message>
    <message>
        <source>A condition needs a signal; the project has none yet.</source>
        <translation>Eine Bedingung braucht ein Signal; das Projekt hat noch keines.</translation>
    </message>
    <message>
        <source>A screen change needs a screen to start from; add one first.</source>
        <translation>Ein Bildwechsel braucht ein Bild, von dem er ausgeht; zuerst eines anlegen.</translation>
    </message>
    <message>
        <source>A&amp;rrange the map</source>
        <translation>Plan &amp;ordnen</translation>
    </message>
    <message>
        <source>Add a screen c&amp;hange…</source>
        <translation>Bildwe&amp;chsel anlegen…</translation>
    </message>
    <message>
        <source>Add idle return</source>
        <translation>Rücksprung ohne Bedienung anlegen</translation>
    </message>
    <message>
        <source>Add override</source>
        <translation>Vorrangbild anlegen</translation>
    </message>
    <message>
        <source>Add screen</source>
        <translation>Bild anlegen</translation>
    </message>
    <message>
        <source>Add screen change</source>
        <translation>Bildwechsel</translation>
    </message>
    <message>
        <source>Arrange</source>
        <translation>Ordnen</translation>
    </message>
    <message>
        <source>Arrange the map</source>
        <translation>Plan ordnen</translation>
    </message>
    <message>
        <source>By condition</source>
        <translation>Nach Bedingung</translation>
    </message>
    <message>
        <source>By {onward} alone</source>
        <translation>Nur mit {onward}</translation>
    </message>
    <message>
        <source>By {onward} and {back}</source>
        <translation>Mit {onward} und {back}</translation>
    </message>
    <message>
        <source>Change the start screen</source>
        <translation>Startbild ändern</translation>
    </message>
    <message>
        <source>Delete on all screens</source>
        <translation>Auf allen Bildern löschen</translation>
    </message>
    <message>
        <source>Delete screen change</source>
        <translation>Bildwechsel löschen</translation>
    </message>
    <message>
        <source>Draw screen change</source>
        <translation>Bildwechsel ziehen</translation>
    </message>
    <message>
        <source>Draw screen change to a new screen</source>
        <translation>Bildwechsel zu neuem Bild ziehen</translation>
    </message>
    <message>
        <source>Every key does something on one of these screens already.</source>
        <translation>Jede Taste tut auf einem dieser Bilder schon etwas.</translation>
    </message>
    <message>
        <source>Find a screen</source>
        <translation>Bild suchen</translation>
    </message>
    <message>
        <source>Find a screen on the map</source>
        <translation>Bild im Plan suchen</translation>
    </message>
    <message>
        <source>Go to the st&amp;art screen</source>
        <translation>Zum St&amp;artbild</translation>
    </message>
    <message>
        <source>Idle returns</source>
        <translation>Rücksprünge</translation>
    </message>
    <message>
        <source>Lead &amp;the selection back to the start</source>
        <translation>Auswahl zurück zu&amp;m Startbild führen</translation>
    </message>
    <message>
        <source>Lead back to “{start}” by {key}</source>
        <translation>Mit {key} zurück zu „{start}“</translation>
    </message>
    <message>
        <source>Line up {count} screens</source>
        <translation>{count} Bilder ausrichten</translation>
    </message>
    <message>
        <source>Make a rin&amp;g of the selection…</source>
        <translation>Ring aus der Auswa&amp;hl …</translation>
    </message>
    <message>
        <source>Make a ring</source>
        <translation>Ring bilden</translation>
    </message>
    <message>
        <source>Make a ring of {count} screens</source>
        <translation>Ring aus {count} Bildern bilden</translation>
    </message>
    <message>
        <source>Move in the ring</source>
        <translation>Im Ring verschieben</translation>
    </message>
    <message>
        <source>Move on the map</source>
        <translation>Im Plan verschieben</translation>
    </message>
    <message>
        <source>New &amp;screen here</source>
        <translation>Neues &amp;Bild hier</translation>
    </message>
    <message>
        <source>No key is free on all of these screens.</source>
        <translation>Keine Taste ist auf all diesen Bildern frei.</translation>
    </message>
    <message>
        <source>O&amp;pen the selection</source>
        <translation>Auswahl öff&amp;nen</translation>
    </message>
    <message>
        <source>Or hover over a screen and drag one of its keys to another screen.</source>
        <translation>Oder den Mauszeiger auf ein Bild setzen und eine seiner Tasten auf ein anderes Bild ziehen.</translation>
    </message>
    <message>
        <source>Put one below the other</source>
        <translation>Untereinander stellen</translation>
    </message>
    <message>
        <source>Put side &amp;by side</source>
        <translation>Ne&amp;beneinander stellen</translation>
    </message>
    <message>
        <source>Re&amp;name</source>
        <translation>&amp;Umbenennen</translation>
    </message>
    <message>
        <source>Redirect screen change</source>
        <translation>Bildwechsel umlenken</translation>
    </message>
    <message>
        <source>Return here when &amp;idle…</source>
        <translation>O&amp;hne Bedienung hierher zurück…</translation>
    </message>
    <message>
        <source>Select a screen or an arrow to delete it.</source>
        <translation>Zum Löschen ein Bild oder einen Pfeil auswählen.</translation>
    </message>
    <message>
        <source>Select the &amp;next screen change</source>
        <translation>Nächsten Bil&amp;dwechsel auswählen</translation>
    </message>
    <message>
        <source>Select the previo&amp;us screen change</source>
        <translation>Vo&amp;rigen Bildwechsel auswählen</translation>
    </message>
    <message>
        <source>Select the screens that lead back to “{start}” first.</source>
        <translation>Zuerst die Bilder wählen, die zu „{start}“ zurückführen sollen.</translation>
    </message>
    <message>
        <source>Select two screens or more first.</source>
        <translation>Zuerst mindestens zwei Bilder wählen.</translation>
    </message>
    <message>
        <source>Select two screens or more first: Shift and drag around them, or Ctrl and click.</source>
        <translation>Zuerst mindestens zwei Bilder wählen: mit Umschalt einen Rahmen ziehen oder mit Strg anklicken.</translation>
    </message>
    <message>
        <source>Selection</source>
        <translation>Auswahl</translation>
    </message>
    <message>
        <source>Sh&amp;ow screens by condition</source>
        <translation>Bildschirme nach Beding&amp;ung zeigen</translation>
    </message>
    <message>
        <source>Show &amp;idle returns</source>
        <translation>Rücksprünge ohne Bedienung an&amp;zeigen</translation>
    </message>
    <message>
        <source>Show it while a &amp;condition is true…</source>
        <translation>Anzeigen, solange eine Bedin&amp;gung erfüllt ist…</translation>
    </message>
    <message>
        <source>Show the &amp;selected screens</source>
        <translation>Ausgewählte Bilder anze&amp;igen</translation>
    </message>
    <message>
        <source>Show the &amp;whole map</source>
        <translation>&amp;Ganzen Plan anzeigen</translation>
    </message>
    <message>
        <source>Spread evenl&amp;y down</source>
        <translation>Gleichmäßig senkrech&amp;t verteilen</translation>
    </message>
    <message>
        <source>Spread evenly a&amp;cross</source>
        <translation>Gleichmäßig &amp;waagrecht verteilen</translation>
    </message>
    <message>
        <source>This screen change applies on every screen: all arrows of the key {key} would be deleted.</source>
        <translation>Dieser Bildwechsel gilt auf jedem Bild: Alle Pfeile der Taste {key} würden gelöscht.</translation>
    </message>
    <message>
        <source>To the &amp;next screen</source>
        <translation>Zum &amp;nächsten Bild</translation>
    </message>
    <message>
        <source>To the &amp;previous screen</source>
        <translation>Zum v&amp;origen Bild</translation>
    </message>
    <message>
        <source>Whole map</source>
        <translation>Ganzer Plan</translation>
    </message>
    <message>
        <source>Zoo&amp;m out</source>
        <translation>Ver&amp;kleinern</translation>
    </message>
    <message>
        <source>Zoom in</source>
        <translation>Vergrößern</translation>
    </message>
    <message>
        <source>Zoom out</source>
        <translation>Verkleinern</translation>
    </message>
    <message>
        <source>screen</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>{keys}; changes where they lead now</source>
        <translation>{keys}; führt dann woandershin als jetzt</translation>
    </message>
</context>
<context>
    <name>PanelFace</name>
    <message>
        <source>Panel</source>
        <translation>Panel</translation>
    </message>
    <message>
        <source>Panel of {rows} rows of {columns} cells</source>
        <translation>Panel mit {rows} Zeilen zu {columns} Zellen</translation>
    </message>
</context>
<context>
    <name>PanelForm</name>
    <message>
        <source>1 to 132</source>
        <translation>1 bis 132</translation>
    </message>
    <message>
        <source>1 to 64</source>
        <translation>1 bis 64</translation>
    </message>
    <message>
        <source>Begin key</source>
        <translation>Taste Beginnen</translation>
    </message>
    <message>
        <source>Cancel after</source>
        <translation>Abbruch nach</translation>
    </message>
    <message>
        <source>Cancel key</source>
        <translation>Taste Abbrechen</translation>
    </message>
    <message>
        <source>Change panel</source>
        <translation>Panel ändern</translation>
    </message>
    <message>
        <source>Character set</source>
        <translation>Zeichensatz</translation>
    </message>
    <message>
        <source>Characters that the panel&apos;s display can show</source>
        <translation>Zeichen, die das Panel darstellen kann</translation>
    </message>
    <message>
        <source>Columns</source>
        <translation>Spalten</translation>
    </message>
    <message>
        <source>Confirm key</source>
        <translation>Taste Bestätigen</translation>
    </message>
    <message>
        <source>Decrease key</source>
        <translation>Taste Verringern</translation>
    </message>
    <message>
        <source>Documentation</source>
        <translation>Dokumentation</translation>
    </message>
    <message>
        <source>Entry mode</source>
        <translation>Eingabeart</translation>
    </message>
    <message>
        <source>Increase key</source>
        <translation>Taste Erhöhen</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>LCD (European)</source>
        <translation>LCD (europäisch)</translation>
    </message>
    <message>
        <source>LCD (Kana)</source>
        <translation>LCD (Kana)</translation>
    </message>
    <message>
        <source>Languages</source>
        <translation>Sprachen</translation>
    </message>
    <message>
        <source>Languages of the texts</source>
        <translation>Sprachen der Texte</translation>
    </message>
    <message>
        <source>Left key</source>
        <translation>Taste nach links</translation>
    </message>
    <message>
        <source>Names of the keys, separated by commas: left, right, up, down, enter, escape, F1</source>
        <translation>Namen der Tasten, durch Kommas getrennt: left, right, up, down, enter, escape, F1</translation>
    </message>
    <message>
        <source>Names of the languages, separated by commas; the first is used where another has no text. Empty: one language only</source>
        <translation>Namen der Sprachen, durch Kommas getrennt; die erste gilt, wo eine andere keinen Text hat. Leer: nur eine Sprache</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notizen</translation>
    </message>
    <message>
        <source>Remove a language</source>
        <translation>Sprache entfernen</translation>
    </message>
    <message>
        <source>Remove the language “{name}”</source>
        <translation>Sprache „{name}“ entfernen</translation>
    </message>
    <message>
        <source>Right key</source>
        <translation>Taste nach rechts</translation>
    </message>
    <message>
        <source>Rows</source>
        <translation>Zeilen</translation>
    </message>
    <message>
        <source>Seconds without a key press after which the entry is cancelled. 0: never</source>
        <translation>Sekunden ohne Tastendruck, nach denen die Eingabe abgebrochen wird. 0: nie</translation>
    </message>
    <message>
        <source>Selected by</source>
        <translation>Auswahl durch</translation>
    </message>
    <message>
        <source>Signal whose value is the number of the language; 0 is the first</source>
        <translation>Signal, dessen Wert die Nummer der Sprache ist; 0 ist die erste</translation>
    </message>
    <message>
        <source>Start screen</source>
        <translation>Startbild</translation>
    </message>
    <message>
        <source>Title</source>
        <translation>Titel</translation>
    </message>
    <message>
        <source>Title of the project, as used in its documents</source>
        <translation>Titel des Projekts, wie er in den Unterlagen steht</translation>
    </message>
    <message>
        <source>Value entry</source>
        <translation>Werteingabe</translation>
    </message>
    <message>
        <source>digit by digit</source>
        <translation>Ziffer für Ziffer</translation>
    </message>
    <message>
        <source>in steps</source>
        <translation>in Schritten</translation>
    </message>
    <message>
        <source>key action</source>
        <translation>Tastenaktion</translation>
    </message>
    <message>
        <source>the key &apos;{name}&apos; is listed twice</source>
        <translation>die Taste „{name}“ ist zweimal angegeben</translation>
    </message>
    <message>
        <source>there are texts in “{name}”; remove that language with the button</source>
        <translation>es gibt Texte in „{name}“; diese Sprache mit der Schaltfläche entfernen</translation>
    </message>
</context>
<context>
    <name>PanelKey</name>
    <message>
        <source>Key %s</source>
        <translation>Taste %s</translation>
    </message>
</context>
<context>
    <name>PanelReason</name>
    <message>
        <source>Reason for this panel message: {words}</source>
        <translation>Grund dieser Panelmeldung: {words}</translation>
    </message>
    <message>
        <source>Sent anyway, until confirmed: {keys}.</source>
        <translation>Trotzdem gesendet, bis bestätigt: {keys}.</translation>
    </message>
    <message>
        <source>{count} more</source>
        <translation>{count} weitere</translation>
    </message>
    <message>
        <source>{devices}: no answer, so nothing is set there.</source>
        <translation>{devices}: keine Antwort, dort wird nichts gesetzt.</translation>
    </message>
    <message>
        <source>{devices}: no answer. Refused: {keys}.</source>
        <translation>{devices}: keine Antwort. Abgelehnt: {keys}.</translation>
    </message>
    <message>
        <source>{key} (switching off)</source>
        <translation>{key} (Ausschalten)</translation>
    </message>
    <message>
        <source>{key} (switching on)</source>
        <translation>{key} (Einschalten)</translation>
    </message>
    <message>
        <source>{key} clears “{signal}”</source>
        <translation>{key} löscht „{signal}“</translation>
    </message>
    <message>
        <source>{key} holds “{signal}” while pressed</source>
        <translation>{key} hält „{signal}“, solange sie gedrückt ist</translation>
    </message>
    <message>
        <source>{key} sets “{signal}”</source>
        <translation>{key} setzt „{signal}“</translation>
    </message>
    <message>
        <source>{key} switches “{signal}”</source>
        <translation>{key} schaltet „{signal}“ um</translation>
    </message>
    <message>
        <source>{key} writes “{signal}”</source>
        <translation>{key} schreibt „{signal}“</translation>
    </message>
    <message>
        <source>“{text}”: {reason}</source>
        <translation>„{text}“: {reason}</translation>
    </message>
</context>
<context>
    <name>PanelView</name>
    <message>
        <source>Settings of the panel</source>
        <translation>Einstellungen des Panels</translation>
    </message>
    <message>
        <source>What the panel says by itself</source>
        <translation>Was das Panel von sich aus meldet</translation>
    </message>
</context>
<context>
    <name>PartCommands</name>
    <message>
        <source>&amp;Action by a key</source>
        <translation>&amp;Aktion durch eine Taste</translation>
    </message>
    <message>
        <source>&amp;Device</source>
        <translation>&amp;Gerät</translation>
    </message>
    <message>
        <source>&amp;Line on a serial port (RTU)</source>
        <translation>&amp;Leitung, serieller Anschluss (RTU)</translation>
    </message>
    <message>
        <source>&amp;Signal read from a device</source>
        <translation>&amp;Signal, von einem Gerät gelesen</translation>
    </message>
    <message>
        <source>Action &amp;when a condition becomes true</source>
        <translation>Aktion, &amp;wenn eine Bedingung eintritt</translation>
    </message>
    <message>
        <source>Delete the rows</source>
        <translation>Zeilen löschen</translation>
    </message>
    <message>
        <source>Duplicate the rows</source>
        <translation>Zeilen duplizieren</translation>
    </message>
    <message>
        <source>Line by &amp;Modbus TCP</source>
        <translation>Leitung über &amp;Modbus TCP</translation>
    </message>
    <message>
        <source>Line by RTU frames &amp;over TCP</source>
        <translation>Leitung, RTU-Telegramme &amp;über TCP</translation>
    </message>
    <message>
        <source>Move the rows down</source>
        <translation>Zeilen nach unten</translation>
    </message>
    <message>
        <source>Move the rows up</source>
        <translation>Zeilen nach oben</translation>
    </message>
    <message>
        <source>Screen chan&amp;ge by a key</source>
        <translation>Bildwechsel durch eine &amp;Taste</translation>
    </message>
    <message>
        <source>Screen change after &amp;idle time</source>
        <translation>Bildwechsel nach &amp;Zeit ohne Bedienung</translation>
    </message>
    <message>
        <source>Screen change by a &amp;condition</source>
        <translation>Bildwechsel durch eine Be&amp;dingung</translation>
    </message>
    <message>
        <source>Signal &amp;held in the panel</source>
        <translation>Signal als &amp;Panelwert</translation>
    </message>
    <message>
        <source>Signal that is a &amp;bit of another</source>
        <translation>Signal, ein &amp;Bit eines anderen</translation>
    </message>
    <message>
        <source>This works on the rows of tables: signals, screen changes, actions, lines.</source>
        <translation>Dies gilt für Tabellenzeilen: Signale, Bildwechsel, Aktionen, Leitungen.</translation>
    </message>
</context>
<context>
    <name>PartEditing</name>
    <message>
        <source>&apos;{text}&apos; stays in the properties until it is corrected: {reason}</source>
        <translation>„{text}“ bleibt bis zur Korrektur in den Eigenschaften: {reason}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; was not accepted: {reason}</source>
        <translation>„{text}“ wurde nicht übernommen: {reason}</translation>
    </message>
    <message>
        <source>{change}: “{column}” of {count}</source>
        <translation>{change}: „{column}“ von {count}</translation>
    </message>
    <message>
        <source>{change}: “{column}” of “{name}”</source>
        <translation>{change}: „{column}“ von „{name}“</translation>
    </message>
</context>
<context>
    <name>PartForm</name>
    <message>
        <source>Rename</source>
        <translation>Umbenennen</translation>
    </message>
    <message>
        <source>{change} “{name}”: “{label}”</source>
        <translation>{change} „{name}“: „{label}“</translation>
    </message>
    <message>
        <source>{change}: “{label}”</source>
        <translation>{change}: „{label}“</translation>
    </message>
    <message>
        <source>{change}: “{label}” of {count}</source>
        <translation>{change}: „{label}“ von {count}</translation>
    </message>
</context>
<context>
    <name>PartModel</name>
    <message>
        <source>Type or paste here: new rows</source>
        <translation>Hier tippen oder einfügen: neue Zeilen</translation>
    </message>
    <message>
        <source>with an error</source>
        <translation>mit einem Fehler</translation>
    </message>
    <message>
        <source>{column}: empty row, type or paste here</source>
        <translation>{column}: leere Zeile, hier tippen oder einfügen</translation>
    </message>
</context>
<context>
    <name>PartTable</name>
    <message>
        <source>&amp;Columns</source>
        <translation>&amp;Spalten</translation>
    </message>
    <message>
        <source>&amp;Duplicate</source>
        <translation>&amp;Duplizieren</translation>
    </message>
    <message>
        <source>Add</source>
        <translation>Anlegen</translation>
    </message>
    <message>
        <source>Add (Insert)</source>
        <translation>Anlegen (Einfg)</translation>
    </message>
    <message>
        <source>All</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>D&amp;elete</source>
        <translation>&amp;Löschen</translation>
    </message>
    <message>
        <source>File order</source>
        <translation>Dateireihenfolge</translation>
    </message>
    <message>
        <source>Filter</source>
        <translation>Filter</translation>
    </message>
    <message>
        <source>Filter by name, unit…</source>
        <translation>Nach Name, Einheit filtern…</translation>
    </message>
    <message>
        <source>More</source>
        <translation>Mehr</translation>
    </message>
    <message>
        <source>More of what can be done with the rows</source>
        <translation>Was sich mit den Zeilen noch tun lässt</translation>
    </message>
    <message>
        <source>Move &amp;up</source>
        <translation>Nach &amp;oben</translation>
    </message>
    <message>
        <source>Move do&amp;wn</source>
        <translation>Nach &amp;unten</translation>
    </message>
    <message>
        <source>Sorting changes the view only. Go back to the order of the file</source>
        <translation>Sortieren ändert nur die Ansicht. Zurück zur Reihenfolge der Datei</translation>
    </message>
    <message>
        <source>The filter hides all rows.</source>
        <translation>Der Filter blendet alle Zeilen aus.</translation>
    </message>
</context>
<context>
    <name>Pasted</name>
    <message>
        <source>&apos;{text}&apos; can mean {small} or {large}; write it so that only one is possible</source>
        <translation>„{text}“ kann {small} oder {large} bedeuten; eindeutig schreiben</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is written differently from the other numbers</source>
        <translation>„{text}“ ist anders geschrieben als die übrigen Zahlen</translation>
    </message>
    <message>
        <source>columns beyond the last one: {count}</source>
        <translation>Spalten hinter der letzten: {count}</translation>
    </message>
    <message>
        <source>the clipboard cannot be read as a table</source>
        <translation>der Inhalt der Zwischenablage ist nicht als Tabelle lesbar</translation>
    </message>
    <message>
        <source>the clipboard has {count} rows; at most {most} can be pasted</source>
        <translation>{count} Zeilen in der Zwischenablage; höchstens {most} können eingefügt werden</translation>
    </message>
</context>
<context>
    <name>Placing</name>
    <message>
        <source>there is something else already</source>
        <translation>dort steht schon etwas anderes</translation>
    </message>
    <message>
        <source>“{signal}” needs {needed} cells, and there is room for {room}</source>
        <translation>„{signal}“ braucht {needed} Zellen, Platz ist für {room}</translation>
    </message>
</context>
<context>
    <name>PortRow</name>
    <message>
        <source>different</source>
        <translation>verschieden</translation>
    </message>
</context>
<context>
    <name>ProblemsDialog</name>
    <message>
        <source>&amp;Copy as text</source>
        <translation>Als Text &amp;kopieren</translation>
    </message>
    <message>
        <source>... and {count} more.</source>
        <translation>… und {count} weitere.</translation>
    </message>
    <message>
        <source>Problems</source>
        <translation>Probleme</translation>
    </message>
</context>
<context>
    <name>ProgressBlocks</name>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
</context>
<context>
    <name>ProjectFiles</name>
    <message>
        <source>&amp;Compare with another file…</source>
        <translation>Mit anderer Datei ver&amp;gleichen…</translation>
    </message>
    <message>
        <source>&amp;New panel…</source>
        <translation>&amp;Neues Panel…</translation>
    </message>
    <message>
        <source>&amp;Open it</source>
        <translation>&amp;Öffnen</translation>
    </message>
    <message>
        <source>&amp;Open…</source>
        <translation>Ö&amp;ffnen…</translation>
    </message>
    <message>
        <source>&amp;Reload</source>
        <translation>Neu &amp;laden</translation>
    </message>
    <message>
        <source>&amp;Reload from disk</source>
        <translation>Vom Datenträger neu &amp;laden</translation>
    </message>
    <message>
        <source>&amp;Save</source>
        <translation>&amp;Speichern</translation>
    </message>
    <message>
        <source>Checking {file}…</source>
        <translation>{file} wird geprüft…</translation>
    </message>
    <message>
        <source>Clos&amp;e the project</source>
        <translation>Pro&amp;jekt schließen</translation>
    </message>
    <message>
        <source>Compare with</source>
        <translation>Vergleichen mit</translation>
    </message>
    <message>
        <source>Compare with the sa&amp;ved version</source>
        <translation>Mit Gespeichertem verglei&amp;chen</translation>
    </message>
    <message>
        <source>Fanlight projects (*{suffix});;All files (*)</source>
        <translation>Fanlight-Projekte (*{suffix});;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Not accepted yet, see the findings: {count}</source>
        <translation>Noch nicht übernommen, siehe Prüfergebnisse: {count}</translation>
    </message>
    <message>
        <source>Open a project or recording</source>
        <translation>Projekt oder Aufzeichnung öffnen</translation>
    </message>
    <message>
        <source>Opening {file}…</source>
        <translation>{file} wird geöffnet…</translation>
    </message>
    <message>
        <source>Projects and recordings (*{suffix} *{recording});;All files (*)</source>
        <translation>Projekte und Aufzeichnungen (*{suffix} *{recording});;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Re&amp;load from disk</source>
        <translation>Vom Datenträger neu &amp;laden</translation>
    </message>
    <message>
        <source>Recover &amp;unsaved work…</source>
        <translation>Ungespeichertes &amp;wiederherstellen…</translation>
    </message>
    <message>
        <source>Recover unsaved work</source>
        <translation>Ungespeichertes wiederherstellen</translation>
    </message>
    <message>
        <source>Recovered</source>
        <translation>Wiederhergestellt</translation>
    </message>
    <message>
        <source>Recovered. Not saved yet</source>
        <translation>Wiederhergestellt. Noch nicht gespeichert</translation>
    </message>
    <message>
        <source>Reload</source>
        <translation>Neu laden</translation>
    </message>
    <message>
        <source>Reloaded {file}; undo restores the previous state</source>
        <translation>{file} neu geladen; Rückgängig stellt den vorigen Stand wieder her</translation>
    </message>
    <message>
        <source>Reo&amp;pen the last project at start</source>
        <translation>Letztes Projekt beim Start &amp;öffnen</translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation>Speichern &amp;unter…</translation>
    </message>
    <message>
        <source>Save &amp;over it</source>
        <translation>&amp;Überschreiben</translation>
    </message>
    <message>
        <source>Save the project as</source>
        <translation>Projekt speichern unter</translation>
    </message>
    <message>
        <source>Saved {file}</source>
        <translation>{file} gespeichert</translation>
    </message>
    <message>
        <source>Saved {file}. Incomplete, so not included: {what}</source>
        <translation>{file} gespeichert. Unvollständig und daher nicht enthalten: {what}</translation>
    </message>
    <message>
        <source>Saved {time}</source>
        <translation>Gespeichert {time}</translation>
    </message>
    <message>
        <source>Saved; the other version is {file}</source>
        <translation>Gespeichert; die andere Version ist {file}</translation>
    </message>
    <message>
        <source>Saving {file}…</source>
        <translation>{file} wird gespeichert…</translation>
    </message>
    <message>
        <source>See a &amp;demo run</source>
        <translation>&amp;Demo ansehen</translation>
    </message>
    <message>
        <source>Some texts could not be restored</source>
        <translation>Manche Texte ließen sich nicht wiederherstellen</translation>
    </message>
    <message>
        <source>Start pa&amp;ge</source>
        <translation>S&amp;tartseite</translation>
    </message>
    <message>
        <source>The disk of {file} is not responding; the file may not be saved: save elsewhere</source>
        <translation>Der Datenträger von {file} antwortet nicht; die Datei ist vielleicht nicht gespeichert: anderswo speichern</translation>
    </message>
    <message>
        <source>There is no unsaved work to recover</source>
        <translation>Es gibt keine ungespeicherte Arbeit zum Wiederherstellen</translation>
    </message>
    <message>
        <source>This file cannot be opened</source>
        <translation>Diese Datei kann nicht geöffnet werden</translation>
    </message>
    <message>
        <source>This project was never saved; there is nothing to compare it with</source>
        <translation>Dieses Projekt wurde noch nie gespeichert; es gibt nichts zum Vergleichen</translation>
    </message>
    <message>
        <source>This project was never saved; there is nothing to reload</source>
        <translation>Dieses Projekt wurde noch nie gespeichert; es gibt nichts neu zu laden</translation>
    </message>
    <message>
        <source>other version {time}</source>
        <translation>andere Version {time}</translation>
    </message>
    <message>
        <source>untitled</source>
        <translation>ohne Titel</translation>
    </message>
    <message>
        <source>{file} cannot be opened. Problems found: {count}</source>
        <translation>{file} kann nicht geöffnet werden. Gefundene Probleme: {count}</translation>
    </message>
    <message>
        <source>{file} is unchanged</source>
        <translation>{file} ist unverändert</translation>
    </message>
    <message>
        <source>{file} was not opened: the disk is not responding</source>
        <translation>{file} wurde nicht geöffnet: Der Datenträger antwortet nicht</translation>
    </message>
    <message>
        <source>{file}, as on disk</source>
        <translation>{file}, wie auf dem Datenträger</translation>
    </message>
    <message>
        <source>{file}, as saved</source>
        <translation>{file}, wie gespeichert</translation>
    </message>
    <message>
        <source>{file}, the last project, cannot be opened: {reason}.</source>
        <translation>{file}, das letzte Projekt, kann nicht geöffnet werden: {reason}.</translation>
    </message>
    <message>
        <source>{file}, the last project, is open in another window.</source>
        <translation>{file}, das letzte Projekt, ist in einem anderen Fenster geöffnet.</translation>
    </message>
    <message>
        <source>{file}, the last project, was not opened: the disk is not responding.</source>
        <translation>{file}, das letzte Projekt, wurde nicht geöffnet: Der Datenträger antwortet nicht.</translation>
    </message>
    <message>
        <source>{name}, as in this window</source>
        <translation>{name}, in diesem Fenster</translation>
    </message>
</context>
<context>
    <name>ProjectPage</name>
    <message>
        <source>&amp;Remove name</source>
        <translation>Name ent&amp;fernen</translation>
    </message>
    <message>
        <source>Devices: {devices}, named registers: {signals}</source>
        <translation>Geräte: {devices}, benannte Register: {signals}</translation>
    </message>
    <message>
        <source>How the manual counts registers</source>
        <translation>Zählweise des Handbuchs</translation>
    </message>
    <message>
        <source>Its man&amp;ual counts registers</source>
        <translation>Sein &amp;Handbuch zählt Register</translation>
    </message>
    <message>
        <source>Named registers</source>
        <translation>Benannte Register</translation>
    </message>
    <message>
        <source>No register has a name yet</source>
        <translation>Noch hat kein Register einen Namen</translation>
    </message>
    <message>
        <source>The project gets the line with the settings that were found, each device with its limits, and a signal for each named register; without any names, for the first registers of each device. Nothing can be written until you allow it for a signal.</source>
        <translation>Das Projekt erhält die Leitung mit den gefundenen Einstellungen, jedes Gerät mit seinen Grenzen und für jedes benannte Register ein Signal; ohne Namen für die ersten Register jedes Geräts. Nichts ist schreibbar, bis es für ein Signal erlaubt wird.</translation>
    </message>
    <message>
        <source>from 0, as on the wire</source>
        <translation>ab 0, wie auf der Leitung</translation>
    </message>
    <message>
        <source>from 1</source>
        <translation>ab 1</translation>
    </message>
    <message>
        <source>with the table in front, from 1 (40001)</source>
        <translation>mit der Tabelle davor, ab 1 (40001)</translation>
    </message>
    <message>
        <source>“Which register?” finds those whose value the device shows. A project can be made without names, too.</source>
        <translation>„Welches Register?“ findet die, deren Wert das Gerät anzeigt. Ein Projekt lässt sich auch ohne Namen anlegen.</translation>
    </message>
</context>
<context>
    <name>Quality</name>
    <message>
        <source>doubtful</source>
        <translation>zweifelhaft</translation>
    </message>
    <message>
        <source>good</source>
        <translation>gut</translation>
    </message>
    <message>
        <source>implausible</source>
        <translation>unplausibel</translation>
    </message>
    <message>
        <source>never read</source>
        <translation>nie gelesen</translation>
    </message>
    <message>
        <source>old</source>
        <translation>alt</translation>
    </message>
    <message>
        <source>panel value</source>
        <translation>Panelwert</translation>
    </message>
    <message>
        <source>refused</source>
        <translation>abgelehnt</translation>
    </message>
</context>
<context>
    <name>ReadingChoices</name>
    <message>
        <source>&amp;Decimal mark</source>
        <translation>&amp;Dezimalzeichen</translation>
    </message>
    <message>
        <source>&amp;Register numbering</source>
        <translation>&amp;Registerzählweise</translation>
    </message>
    <message>
        <source>&amp;Sheet</source>
        <translation>&amp;Blatt</translation>
    </message>
    <message>
        <source>&amp;Titles in row</source>
        <translation>&amp;Titel in Zeile</translation>
    </message>
    <message>
        <source>&amp;hexadecimal registers</source>
        <translation>Register &amp;hexadezimal</translation>
    </message>
    <message>
        <source>Character &amp;encoding</source>
        <translation>Zeichen&amp;kodierung</translation>
    </message>
    <message>
        <source>Character between two cells of a row.</source>
        <translation>Zeichen zwischen zwei Zellen einer Zeile.</translation>
    </message>
    <message>
        <source>Character encoding of the file.</source>
        <translation>Zeichenkodierung der Datei.</translation>
    </message>
    <message>
        <source>Coil</source>
        <translation>Coil</translation>
    </message>
    <message>
        <source>Comma ,</source>
        <translation>Komma ,</translation>
    </message>
    <message>
        <source>Comma, 0,1</source>
        <translation>Komma, 0,1</translation>
    </message>
    <message>
        <source>Default t&amp;able</source>
        <translation>Tabelle &amp;ohne Angabe</translation>
    </message>
    <message>
        <source>Discrete</source>
        <translation>Discrete</translation>
    </message>
    <message>
        <source>For registers whose table is not given in the list.</source>
        <translation>Für Register, deren Tabelle in der Liste nicht angegeben ist.</translation>
    </message>
    <message>
        <source>Holding</source>
        <translation>Holding</translation>
    </message>
    <message>
        <source>Input</source>
        <translation>Input</translation>
    </message>
    <message>
        <source>Of the list. The device keeps its own numbering.</source>
        <translation>Der Liste. Das Gerät behält seine eigene Zählweise.</translation>
    </message>
    <message>
        <source>Point, 0.1</source>
        <translation>Punkt, 0.1</translation>
    </message>
    <message>
        <source>Register numbers without prefix are hexadecimal.</source>
        <translation>Registernummern ohne Präfix sind hexadezimal.</translation>
    </message>
    <message>
        <source>Registers are hexadecimal</source>
        <translation>Register sind hexadezimal</translation>
    </message>
    <message>
        <source>Rows above this one are ignored.</source>
        <translation>Zeilen darüber werden ignoriert.</translation>
    </message>
    <message>
        <source>Se&amp;parator</source>
        <translation>Trenn&amp;zeichen</translation>
    </message>
    <message>
        <source>Semicolon ;</source>
        <translation>Semikolon ;</translation>
    </message>
    <message>
        <source>Tab</source>
        <translation>Tabulator</translation>
    </message>
    <message>
        <source>Unknown: ambiguous numbers such as 1,500 are skipped until you choose.</source>
        <translation>Unbekannt: Mehrdeutige Zahlen wie 1,500 werden übersprungen, bis die Wahl getroffen ist.</translation>
    </message>
    <message>
        <source>Vertical bar |</source>
        <translation>Senkrechter Strich |</translation>
    </message>
    <message>
        <source>as set for the device</source>
        <translation>wie beim Gerät eingestellt</translation>
    </message>
    <message>
        <source>from 0</source>
        <translation>ab 0</translation>
    </message>
    <message>
        <source>from 1</source>
        <translation>ab 1</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>prefixed by the table (40001)</source>
        <translation>mit Ziffer der Tabelle (40001)</translation>
    </message>
    <message>
        <source>unknown</source>
        <translation>unbekannt</translation>
    </message>
</context>
<context>
    <name>ReadingsModel</name>
    <message>
        <source>Age</source>
        <translation>Alter</translation>
    </message>
    <message>
        <source>Quality</source>
        <translation>Qualität</translation>
    </message>
    <message>
        <source>Raw</source>
        <translation>Roh</translation>
    </message>
    <message>
        <source>Reason</source>
        <translation>Grund</translation>
    </message>
    <message>
        <source>Signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
</context>
<context>
    <name>ReadingsTable</name>
    <message>
        <source>Copy the selected readings</source>
        <translation>Ausgewählte Werte kopieren</translation>
    </message>
    <message>
        <source>Filter of the readings</source>
        <translation>Filter der Werte</translation>
    </message>
    <message>
        <source>Filter: part of a name, value, quality or reason</source>
        <translation>Filter: Teil von Name, Wert, Qualität oder Grund</translation>
    </message>
    <message>
        <source>Format of raw numbers (Ctrl+Alt+X: next)</source>
        <translation>Darstellung der Rohwerte (Strg+Alt+X: nächste)</translation>
    </message>
    <message>
        <source>No signals yet</source>
        <translation>Noch keine Signale</translation>
    </message>
    <message>
        <source>Not connected yet</source>
        <translation>Noch nicht verbunden</translation>
    </message>
    <message>
        <source>Only not good</source>
        <translation>Nur nicht gute</translation>
    </message>
    <message>
        <source>Only readings that are not good (Ctrl+Shift+N)</source>
        <translation>Nur Werte, die nicht gut sind (Strg+Umschalt+N)</translation>
    </message>
    <message>
        <source>Raw: binary</source>
        <translation>Roh: binär</translation>
    </message>
    <message>
        <source>Raw: decimal</source>
        <translation>Roh: dezimal</translation>
    </message>
    <message>
        <source>Raw: hexadecimal</source>
        <translation>Roh: hexadezimal</translation>
    </message>
    <message>
        <source>Readings</source>
        <translation>Werte</translation>
    </message>
    <message>
        <source>The panel is live and the {total} signals are read here once it is connected. With simulated devices nothing real can move.</source>
        <translation>Sobald verbunden ist, läuft das Panel, und hier stehen die Werte der {total} Signale. Mit simulierten Geräten kann sich nichts Wirkliches bewegen.</translation>
    </message>
    <message>
        <source>What the panel reads and writes is listed in Design, under Signals.</source>
        <translation>Was das Panel liest und schreibt, steht im Entwurf unter Signale.</translation>
    </message>
    <message>
        <source>all {total} good</source>
        <translation>alle {total} gut</translation>
    </message>
    <message>
        <source>no signals</source>
        <translation>keine Signale</translation>
    </message>
    <message>
        <source>{count} of {total} not good</source>
        <translation>{count} von {total} nicht gut</translation>
    </message>
    <message>
        <source>{total} signals</source>
        <translation>{total} Signale</translation>
    </message>
</context>
<context>
    <name>ReadsAround</name>
    <message>
        <source>The connection does not know this device yet: connect again.</source>
        <translation>Die Verbindung kennt dieses Gerät noch nicht: neu verbinden.</translation>
    </message>
</context>
<context>
    <name>ReadsModel</name>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Every</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>Read across</source>
        <translation>Mitgelesen</translation>
    </message>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Request</source>
        <translation>Anfrage</translation>
    </message>
    <message>
        <source>Takes</source>
        <translation>Dauer</translation>
    </message>
    <message>
        <source>read {registers}</source>
        <translation>{registers} lesen</translation>
    </message>
    <message>
        <source>{ranges} and {count} more</source>
        <translation>{ranges} und {count} weitere</translation>
    </message>
    <message>
        <source>{ranges} unused</source>
        <translation>{ranges} unbenutzt</translation>
    </message>
    <message>
        <source>{table} {first} to {last}</source>
        <translation>{table} {first} bis {last}</translation>
    </message>
</context>
<context>
    <name>ReadsTable</name>
    <message>
        <source>. Not read: {names}</source>
        <translation>. Nicht gelesen: {names}</translation>
    </message>
    <message>
        <source>Copy the selected requests</source>
        <translation>Die ausgewählten Anfragen kopieren</translation>
    </message>
    <message>
        <source>How the registers are read</source>
        <translation>Wie die Register gelesen werden</translation>
    </message>
    <message>
        <source>Requests: {requests}, for signals: {signals}</source>
        <translation>Anfragen: {requests}, für Signale: {signals}</translation>
    </message>
</context>
<context>
    <name>RecentFiles</name>
    <message>
        <source>&amp;Clear this list</source>
        <translation>Liste &amp;leeren</translation>
    </message>
    <message>
        <source>&amp;Remove missing files</source>
        <translation>&amp;Fehlende Dateien entfernen</translation>
    </message>
    <message>
        <source>Open &amp;recent</source>
        <translation>&amp;Zuletzt geöffnet</translation>
    </message>
    <message>
        <source>{file}  –  {folder} (not found)</source>
        <translation>{file}  –  {folder} (nicht gefunden)</translation>
    </message>
</context>
<context>
    <name>RecentList</name>
    <message>
        <source>Recent projects</source>
        <translation>Zuletzt verwendete Projekte</translation>
    </message>
    <message>
        <source>today {time}</source>
        <translation>heute {time}</translation>
    </message>
    <message>
        <source>{folder} (not found)</source>
        <translation>{folder} (nicht gefunden)</translation>
    </message>
    <message>
        <source>{folder} · {when}</source>
        <translation>{folder} · {when}</translation>
    </message>
</context>
<context>
    <name>RecordKeeping</name>
    <message>
        <source>&amp;Reason</source>
        <translation>&amp;Begründung</translation>
    </message>
    <message>
        <source>Accept that it &amp;did not pass…</source>
        <translation>Nicht Bestandenes ak&amp;zeptieren …</translation>
    </message>
    <message>
        <source>Accept that “{case}” did not pass?</source>
        <translation>Akzeptieren, dass „{case}“ nicht bestanden ist?</translation>
    </message>
    <message>
        <source>Accept…</source>
        <translation>Akzeptieren …</translation>
    </message>
    <message>
        <source>Co&amp;mpare with an earlier record…</source>
        <translation>&amp;Mit früherem Protokoll vergleichen …</translation>
    </message>
    <message>
        <source>Compare…</source>
        <translation>Vergleichen …</translation>
    </message>
    <message>
        <source>Curves</source>
        <translation>Kurven</translation>
    </message>
    <message>
        <source>Open an earlier record</source>
        <translation>Früheres Protokoll öffnen</translation>
    </message>
    <message>
        <source>Records of trials (*{ending})</source>
        <translation>Abnahmeprotokolle (*{ending})</translation>
    </message>
    <message>
        <source>Records of trials (*{ending});;All files (*)</source>
        <translation>Abnahmeprotokolle (*{ending});;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Sa&amp;ve the record…</source>
        <translation>Pr&amp;otokoll speichern …</translation>
    </message>
    <message>
        <source>Save record…</source>
        <translation>Protokoll speichern …</translation>
    </message>
    <message>
        <source>Save the record</source>
        <translation>Protokoll speichern</translation>
    </message>
    <message>
        <source>Show the c&amp;urves of the run</source>
        <translation>K&amp;urven des Laufs zeigen</translation>
    </message>
    <message>
        <source>Si&amp;gn the record…</source>
        <translation>Protokoll s&amp;ignieren …</translation>
    </message>
    <message>
        <source>Sign…</source>
        <translation>Signieren …</translation>
    </message>
    <message>
        <source>The record is saved as {file}</source>
        <translation>Das Protokoll ist gespeichert als {file}</translation>
    </message>
    <message>
        <source>The result stays as it is. The record says that {name} accepts it, and why.</source>
        <translation>Das Ergebnis bleibt, wie es ist. Im Protokoll steht, dass {name} es akzeptiert, und warum.</translation>
    </message>
    <message>
        <source>choose a case that did not pass</source>
        <translation>erst einen nicht bestandenen Fall wählen</translation>
    </message>
    <message>
        <source>curves are kept of runs at the device</source>
        <translation>Kurven bleiben von Läufen am Gerät erhalten</translation>
    </message>
    <message>
        <source>it stands in {file}</source>
        <translation>es steht in {file}</translation>
    </message>
    <message>
        <source>the record is signed</source>
        <translation>das Protokoll ist signiert</translation>
    </message>
    <message>
        <source>the run was not finished</source>
        <translation>der Lauf wurde nicht abgeschlossen</translation>
    </message>
    <message>
        <source>there is no run that ended</source>
        <translation>es gibt keinen beendeten Lauf</translation>
    </message>
    <message>
        <source>{file} is signed. Choose another name.</source>
        <translation>{file} ist signiert. Einen anderen Namen wählen.</translation>
    </message>
</context>
<context>
    <name>RecordingControl</name>
    <message>
        <source>&amp;Limits of recordings…</source>
        <translation>&amp;Grenzen der Aufzeichnungen…</translation>
    </message>
    <message>
        <source>&amp;Record</source>
        <translation>&amp;Aufzeichnen</translation>
    </message>
    <message>
        <source>; ⚠ {count} samples lost</source>
        <translation>; ⚠ {count} Abtastwerte verloren</translation>
    </message>
    <message>
        <source>Kept as {file}</source>
        <translation>Abgelegt als {file}</translation>
    </message>
    <message>
        <source>Nothing is connected, so there is nothing to record. Connect first.</source>
        <translation>Keine Verbindung, daher nichts aufzuzeichnen. Zuerst verbinden.</translation>
    </message>
    <message>
        <source>Re&amp;name the last recording…</source>
        <translation>Letzte Aufzeichnung umbe&amp;nennen…</translation>
    </message>
    <message>
        <source>Record &amp;as…</source>
        <translation>Aufzeichnen &amp;unter…</translation>
    </message>
    <message>
        <source>Record to a new file</source>
        <translation>In neue Datei aufzeichnen</translation>
    </message>
    <message>
        <source>Recorded in {file}</source>
        <translation>Aufgezeichnet in {file}</translation>
    </message>
    <message>
        <source>Recording into {file}</source>
        <translation>Aufzeichnung läuft in {file}</translation>
    </message>
    <message>
        <source>Recordings (*.fanrec)</source>
        <translation>Aufzeichnungen (*.fanrec)</translation>
    </message>
    <message>
        <source>Rename the last recording</source>
        <translation>Letzte Aufzeichnung umbenennen</translation>
    </message>
    <message>
        <source>Stop r&amp;ecording</source>
        <translation>Aufzeichnung &amp;beenden</translation>
    </message>
    <message>
        <source>The recording continues.</source>
        <translation>Die Aufzeichnung läuft weiter.</translation>
    </message>
    <message>
        <source>a recording is running</source>
        <translation>eine Aufzeichnung läuft</translation>
    </message>
    <message>
        <source>no recording is running</source>
        <translation>keine Aufzeichnung läuft</translation>
    </message>
    <message>
        <source>nothing was recorded yet</source>
        <translation>noch nichts aufgezeichnet</translation>
    </message>
    <message>
        <source>recorded {time} in {number} files · last {name}, {size}</source>
        <translation>aufgezeichnet {time} in {number} Dateien · zuletzt {name}, {size}</translation>
    </message>
    <message>
        <source>recorded {time} · {name}, {size}</source>
        <translation>aufgezeichnet {time} · {name}, {size}</translation>
    </message>
    <message>
        <source>{file} cannot be renamed: {why}. Close what uses it, or choose another folder.</source>
        <translation>{file} lässt sich nicht umbenennen: {why}. Schließen, was die Datei benutzt, oder einen anderen Ordner wählen.</translation>
    </message>
    <message>
        <source>{file} exists already. Choose another name.</source>
        <translation>{file} gibt es schon. Einen anderen Namen wählen.</translation>
    </message>
    <message>
        <source>{samples} samples in total</source>
        <translation>insgesamt {samples} Abtastwerte</translation>
    </message>
    <message>
        <source>● recording {time} · {name}, file {number} (kept: {kept}), {size}</source>
        <translation>● zeichnet auf {time} · {name}, Datei {number} (behalten: {kept}), {size}</translation>
    </message>
    <message>
        <source>● recording {time} · {name}, file {number}, {size}</source>
        <translation>● zeichnet auf {time} · {name}, Datei {number}, {size}</translation>
    </message>
    <message>
        <source>● recording {time} · {name}, {size}</source>
        <translation>● zeichnet auf {time} · {name}, {size}</translation>
    </message>
</context>
<context>
    <name>RecoveryDialog</name>
    <message>
        <source>&amp;Compare…</source>
        <translation>&amp;Vergleichen…</translation>
    </message>
    <message>
        <source>&amp;Delete</source>
        <translation>&amp;Löschen</translation>
    </message>
    <message>
        <source>&amp;Delete…</source>
        <translation>&amp;Löschen…</translation>
    </message>
    <message>
        <source>&amp;Keep for later</source>
        <translation>&amp;Für später behalten</translation>
    </message>
    <message>
        <source>&amp;Recover</source>
        <translation>&amp;Wiederherstellen</translation>
    </message>
    <message>
        <source>Delete this unsaved work permanently?</source>
        <translation>Diese ungespeicherte Arbeit endgültig löschen?</translation>
    </message>
    <message>
        <source>Differences from its file</source>
        <translation>Unterschiede zur Datei</translation>
    </message>
    <message>
        <source>Everything that was accepted is in its file.</source>
        <translation>Alles Übernommene ist in der Datei.</translation>
    </message>
    <message>
        <source>Fanlight closed without saving this work. Recover an item to continue with it; its file is changed only when you save.</source>
        <translation>Fanlight wurde beendet, ohne diese Arbeit zu speichern. Nach dem Wiederherstellen lässt sich daran weiterarbeiten; die Datei ändert sich erst beim Speichern.</translation>
    </message>
    <message>
        <source>File: {file}</source>
        <translation>Datei: {file}</translation>
    </message>
    <message>
        <source>Its file is missing or cannot be read.</source>
        <translation>Die Datei fehlt oder ist nicht lesbar.</translation>
    </message>
    <message>
        <source>Last backup copy: {time}</source>
        <translation>Letzte Sicherungskopie: {time}</translation>
    </message>
    <message>
        <source>Never saved. Screens: {screens}, signals: {signals}</source>
        <translation>Nie gespeichert. Bilder: {screens}, Signale: {signals}</translation>
    </message>
    <message>
        <source>Recover unsaved work</source>
        <translation>Ungespeicherte Arbeit wiederherstellen</translation>
    </message>
    <message>
        <source>Same as its file: nothing to recover.</source>
        <translation>Gleich der Datei: nichts wiederherzustellen.</translation>
    </message>
    <message>
        <source>Some texts that were not accepted yet cannot be restored.</source>
        <translation>Manche noch nicht übernommenen Texte lassen sich nicht wiederherstellen.</translation>
    </message>
    <message>
        <source>This copy cannot be read. It is kept in {file}</source>
        <translation>Diese Kopie ist nicht lesbar. Sie bleibt in {file}</translation>
    </message>
    <message>
        <source>Title: {title}</source>
        <translation>Titel: {title}</translation>
    </message>
    <message>
        <source>Typed but not accepted yet: {count}</source>
        <translation>Eingetippt, aber noch nicht übernommen: {count}</translation>
    </message>
    <message>
        <source>Unsaved work</source>
        <translation>Ungespeicherte Arbeit</translation>
    </message>
    <message>
        <source>never saved</source>
        <translation>nie gespeichert</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>{file}, as saved</source>
        <translation>{file}, wie gespeichert</translation>
    </message>
    <message>
        <source>{name}
{time}</source>
        <translation>{name}
{time}</translation>
    </message>
</context>
<context>
    <name>RegistersModel</name>
    <message>
        <source>Address (0-based)</source>
        <translation>Adresse (ab 0)</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Nachher</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Jetzt</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
</context>
<context>
    <name>RegistersPage</name>
    <message>
        <source>&amp;Look</source>
        <translation>S&amp;uchen</translation>
    </message>
    <message>
        <source>&amp;Read again</source>
        <translation>Neu &amp;lesen</translation>
    </message>
    <message>
        <source>&amp;Search for more</source>
        <translation>Nach &amp;mehr suchen</translation>
    </message>
    <message>
        <source>&amp;coil</source>
        <translation>&amp;coil</translation>
    </message>
    <message>
        <source>&amp;discrete</source>
        <translation>&amp;discrete</translation>
    </message>
    <message>
        <source>&amp;holding</source>
        <translation>&amp;holding</translation>
    </message>
    <message>
        <source>&amp;input</source>
        <translation>&amp;input</translation>
    </message>
    <message>
        <source>At most some {probes} requests more, about {minutes} min. Registers that are cleared by reading exist: name what must not be touched.</source>
        <translation>Höchstens etwa {probes} weitere Anfragen, rund {minutes} min. Es gibt Register, die beim Lesen gelöscht werden: nennen, was nicht berührt werden darf.</translation>
    </message>
    <message>
        <source>Copy</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>How densely</source>
        <translation>Wie dicht</translation>
    </message>
    <message>
        <source>N&amp;ame this register…</source>
        <translation>Register ben&amp;ennen …</translation>
    </message>
    <message>
        <source>Never touch</source>
        <translation>Nie berühren</translation>
    </message>
    <message>
        <source>No registers are known of this device</source>
        <translation>Von diesem Gerät ist kein Register bekannt</translation>
    </message>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Sav&amp;e snapshot…</source>
        <translation>Register&amp;abbild speichern …</translation>
    </message>
    <message>
        <source>Search for more registers</source>
        <translation>Nach weiteren Registern suchen</translation>
    </message>
    <message>
        <source>They may begin where nobody looked yet: search for more registers below, more densely.</source>
        <translation>Sie können dort beginnen, wo noch nicht gesucht wurde: unten nach weiteren Registern suchen, in kleineren Abständen.</translation>
    </message>
    <message>
        <source>Values read at {last}</source>
        <translation>Werte gelesen um {last}</translation>
    </message>
    <message>
        <source>Values read from {first} to {last}</source>
        <translation>Werte gelesen von {first} bis {last}</translation>
    </message>
    <message>
        <source>Wire addresses</source>
        <translation>Adressen (Leitung)</translation>
    </message>
    <message>
        <source>also at every tenth address</source>
        <translation>auch an jeder zehnten Adresse</translation>
    </message>
    <message>
        <source>at every address</source>
        <translation>an jeder Adresse</translation>
    </message>
    <message>
        <source>where registers usually begin</source>
        <translation>wo Register meist beginnen</translation>
    </message>
    <message>
        <source>“{part}” is no range of wire addresses; write 0-9999</source>
        <translation>„{part}“ ist kein Adressbereich; Schreibweise 0-9999</translation>
    </message>
</context>
<context>
    <name>RegistersTable</name>
    <message>
        <source>Registers</source>
        <translation>Register</translation>
    </message>
</context>
<context>
    <name>RepairDialog</name>
    <message>
        <source>&amp;Compare with it</source>
        <translation>Damit &amp;vergleichen</translation>
    </message>
    <message>
        <source>&amp;Forget these</source>
        <translation>&amp;Diese vergessen</translation>
    </message>
    <message>
        <source>&amp;Undo the last change</source>
        <translation>Letzte Änderung &amp;rückgängig</translation>
    </message>
    <message>
        <source>Compared with {values}.</source>
        <translation>Verglichen mit {values}.</translation>
    </message>
    <message>
        <source>Compared with {values}. Change the value at the device, and type it again.</source>
        <translation>Verglichen mit {values}. Den Wert am Gerät ändern und noch einmal eingeben.</translation>
    </message>
    <message>
        <source>Connect, and the registers are read here once a second; or open a snapshot.</source>
        <translation>Nach dem Verbinden werden die Register hier einmal in der Sekunde gelesen; oder ein Registerabbild öffnen.</translation>
    </message>
    <message>
        <source>Copy the selected rows</source>
        <translation>Gewählte Zeilen kopieren</translation>
    </message>
    <message>
        <source>From {file}; the device is not read. Type what its display showed then, and open another snapshot, of another value.</source>
        <translation>Aus {file}; das Gerät wird nicht gelesen. Eingeben, was seine Anzeige damals zeigte, dann ein weiteres Registerabbild mit einem anderen Wert öffnen.</translation>
    </message>
    <message>
        <source>Its registers and their neighbours, in every data type and order, the likeliest first. Nothing is written to the device.</source>
        <translation>Seine Register und ihre Nachbarn in jedem Datentyp und jeder Reihenfolge, die wahrscheinlichsten zuerst. Am Gerät wird nichts geschrieben.</translation>
    </message>
    <message>
        <source>Not connected</source>
        <translation>Nicht verbunden</translation>
    </message>
    <message>
        <source>Not read</source>
        <translation>Nicht gelesen</translation>
    </message>
    <message>
        <source>Nothing has been read yet that it could be compared with.</source>
        <translation>Noch ist nichts gelesen, womit verglichen werden könnte.</translation>
    </message>
    <message>
        <source>Open a &amp;snapshot…</source>
        <translation>Regi&amp;sterabbild öffnen …</translation>
    </message>
    <message>
        <source>Open a snapshot</source>
        <translation>Registerabbild öffnen</translation>
    </message>
    <message>
        <source>Put a signal right</source>
        <translation>Signal berichtigen</translation>
    </message>
    <message>
        <source>Reading</source>
        <translation>Lesen</translation>
    </message>
    <message>
        <source>Register snapshots (*.toml)</source>
        <translation>Registerabbilder (*.toml)</translation>
    </message>
    <message>
        <source>The device&apos;s own &amp;display shows</source>
        <translation>Das Gerät &amp;zeigt selbst an</translation>
    </message>
    <message>
        <source>The project reads it so already.</source>
        <translation>So liest es das Projekt bereits.</translation>
    </message>
    <message>
        <source>The registers around this signal are being read.</source>
        <translation>Die Register um dieses Signal werden gelesen.</translation>
    </message>
    <message>
        <source>The value of &apos;{name}&apos; looks wrong</source>
        <translation>Der Wert von „{name}“ sieht falsch aus</translation>
    </message>
    <message>
        <source>To read it as in the selected row</source>
        <translation>Damit es wie in der gewählten Zeile gelesen wird</translation>
    </message>
    <message>
        <source>Type what it shows now. Change the value at the device, and type it again.</source>
        <translation>Eingeben, was es jetzt anzeigt. Den Wert am Gerät ändern und noch einmal eingeben.</translation>
    </message>
    <message>
        <source>Ways to read the signal</source>
        <translation>Möglichkeiten, das Signal zu lesen</translation>
    </message>
    <message>
        <source>What the device&apos;s own display shows</source>
        <translation>Was das Gerät selbst anzeigt</translation>
    </message>
    <message>
        <source>e.g. 41.65</source>
        <translation>z. B. 41,65</translation>
    </message>
</context>
<context>
    <name>ReplayBar</name>
    <message>
        <source>&amp;Close the recording</source>
        <translation>Aufzeichnung &amp;schließen</translation>
    </message>
    <message>
        <source>&amp;Play or pause</source>
        <translation>Abs&amp;pielen oder anhalten</translation>
    </message>
    <message>
        <source>Close the recording</source>
        <translation>Aufzeichnung schließen</translation>
    </message>
    <message>
        <source>Pause</source>
        <translation>Anhalten</translation>
    </message>
    <message>
        <source>Play</source>
        <translation>Abspielen</translation>
    </message>
    <message>
        <source>Position in the recording</source>
        <translation>Position in der Aufzeichnung</translation>
    </message>
    <message>
        <source>Speed</source>
        <translation>Tempo</translation>
    </message>
    <message>
        <source>Step &amp;back</source>
        <translation>Schritt &amp;zurück</translation>
    </message>
    <message>
        <source>Step back</source>
        <translation>Schritt zurück</translation>
    </message>
    <message>
        <source>Step forwar&amp;d</source>
        <translation>Schritt &amp;weiter</translation>
    </message>
    <message>
        <source>Step forward</source>
        <translation>Schritt weiter</translation>
    </message>
    <message>
        <source>To the next sample or event</source>
        <translation>Zum nächsten Abtastwert oder Ereignis</translation>
    </message>
    <message>
        <source>To the previous sample or event</source>
        <translation>Zum vorigen Abtastwert oder Ereignis</translation>
    </message>
    <message>
        <source>open a recording first</source>
        <translation>zuerst eine Aufzeichnung öffnen</translation>
    </message>
    <message>
        <source>{at} of {all} s · {clock}</source>
        <translation>{at} von {all} s · {clock}</translation>
    </message>
    <message>
        <source>{speed} ×</source>
        <translation>{speed} ×</translation>
    </message>
</context>
<context>
    <name>ResponseView</name>
    <message>
        <source>(none)</source>
        <translation>(keiner)</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Auf</translation>
    </message>
    <message>
        <source>Choose a set point first; its steps are then found.</source>
        <translation>Zuerst einen Sollwert wählen; seine Sprünge werden dann gesucht.</translation>
    </message>
    <message>
        <source>Cop&amp;y the figures</source>
        <translation>&amp;Kennwerte kopieren</translation>
    </message>
    <message>
        <source>Curve</source>
        <translation>Kurve</translation>
    </message>
    <message>
        <source>Figures of the response</source>
        <translation>Kennwerte der Messung</translation>
    </message>
    <message>
        <source>From, to</source>
        <translation>Von, nach</translation>
    </message>
    <message>
        <source>Its set point</source>
        <translation>Sein Sollwert</translation>
    </message>
    <message>
        <source>Kind of response</source>
        <translation>Art der Messung</translation>
    </message>
    <message>
        <source>Lag</source>
        <translation>Nacheilung</translation>
    </message>
    <message>
        <source>Least, greatest</source>
        <translation>Kleinster, größter</translation>
    </message>
    <message>
        <source>Next step</source>
        <translation>Nächster Sprung</translation>
    </message>
    <message>
        <source>No step of the set point was found in the observed time.</source>
        <translation>Im beobachteten Zeitraum wurde kein Sprung des Sollwerts gefunden.</translation>
    </message>
    <message>
        <source>Overshoot</source>
        <translation>Überschwingen</translation>
    </message>
    <message>
        <source>Put the cursors A and B around a step or a ramp.</source>
        <translation>Die Cursor A und B um einen Sprung oder eine Rampe setzen.</translation>
    </message>
    <message>
        <source>Puts the cursors around the next step of the set point</source>
        <translation>Setzt die Cursor um den nächsten Sprung des Sollwerts</translation>
    </message>
    <message>
        <source>Ramp time</source>
        <translation>Rampenzeit</translation>
    </message>
    <message>
        <source>Ramp time of the set point</source>
        <translation>Rampenzeit des Sollwerts</translation>
    </message>
    <message>
        <source>Response, A to B</source>
        <translation>Antwort von A bis B</translation>
    </message>
    <message>
        <source>Ripple at the end</source>
        <translation>Welligkeit am Ende</translation>
    </message>
    <message>
        <source>Rise time</source>
        <translation>Anstiegszeit</translation>
    </message>
    <message>
        <source>Rise time: from 10 % to 90 % of the change, first crossings. Overshoot: greatest excess over the final value, relative to the change. Settling time: until it stays within 2 % of the change. Definitions of IEC 60050-351.</source>
        <translation>Anstiegszeit: von 10 % auf 90 % der Änderung, erste Durchgänge. Überschwingen: größte Überschreitung des Endwerts, bezogen auf die Änderung. Einschwingzeit: bis der Wert innerhalb von 2 % der Änderung bleibt. Begriffe nach IEC 60050-351.</translation>
    </message>
    <message>
        <source>Set point minus final value</source>
        <translation>Sollwert minus Endwert</translation>
    </message>
    <message>
        <source>Settling time</source>
        <translation>Einschwingzeit</translation>
    </message>
    <message>
        <source>Show a curve in the trend to measure it.</source>
        <translation>Zum Messen eine Kurve im Trend anzeigen.</translation>
    </message>
    <message>
        <source>Signal to measure</source>
        <translation>Zu messendes Signal</translation>
    </message>
    <message>
        <source>Slope</source>
        <translation>Steigung</translation>
    </message>
    <message>
        <source>This signal is not in the observed data.</source>
        <translation>Dieses Signal ist in den beobachteten Daten nicht enthalten.</translation>
    </message>
    <message>
        <source>as a ramp</source>
        <translation>als Rampe</translation>
    </message>
    <message>
        <source>as a step</source>
        <translation>als Sprung</translation>
    </message>
    <message>
        <source>found: a ramp</source>
        <translation>erkannt: Rampe</translation>
    </message>
    <message>
        <source>found: a step</source>
        <translation>erkannt: Sprung</translation>
    </message>
    <message>
        <source>not reached</source>
        <translation>nicht erreicht</translation>
    </message>
    <message>
        <source>step or ramp</source>
        <translation>Sprung/Rampe</translation>
    </message>
    <message>
        <source>{value} at most</source>
        <translation>höchstens {value}</translation>
    </message>
</context>
<context>
    <name>RestoringDialog</name>
    <message>
        <source>Hold to write</source>
        <translation>Zum Schreiben gedrückt halten</translation>
    </message>
    <message>
        <source>New</source>
        <translation>Neu</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Jetzt</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>These values will be written to the device: {count}</source>
        <translation>Diese Werte werden in das Gerät geschrieben: {count}</translation>
    </message>
    <message>
        <source>Values to be written</source>
        <translation>Zu schreibende Werte</translation>
    </message>
    <message>
        <source>Write back to {follower}</source>
        <translation>In {follower} zurückschreiben</translation>
    </message>
    <message>
        <source>Write back to {follower}?</source>
        <translation>Nach {follower} zurückschreiben?</translation>
    </message>
</context>
<context>
    <name>RuleEdits</name>
    <message>
        <source>A condition needs a signal; add one first.</source>
        <translation>Eine Bedingung braucht ein Signal; zuerst eines anlegen.</translation>
    </message>
    <message>
        <source>A screen change needs a screen to go to; add one first.</source>
        <translation>Ein Bildwechsel braucht ein Zielbild; zuerst eines anlegen.</translation>
    </message>
    <message>
        <source>Add “{sentence}”</source>
        <translation>„{sentence}“ hinzufügen</translation>
    </message>
    <message>
        <source>Change “{sentence}”</source>
        <translation>Ändern zu „{sentence}“</translation>
    </message>
    <message>
        <source>Delete {count} sentences</source>
        <translation>{count} Sätze löschen</translation>
    </message>
    <message>
        <source>Delete “{sentence}”</source>
        <translation>„{sentence}“ löschen</translation>
    </message>
    <message>
        <source>Duplicate “{sentence}”</source>
        <translation>„{sentence}“ duplizieren</translation>
    </message>
    <message>
        <source>Move {count} sentences</source>
        <translation>{count} Sätze verschieben</translation>
    </message>
    <message>
        <source>Move “{sentence}”</source>
        <translation>„{sentence}“ verschieben</translation>
    </message>
    <message>
        <source>The panel has no keys; add some in its properties first.</source>
        <translation>Das Panel hat keine Tasten; zuerst in seinen Eigenschaften anlegen.</translation>
    </message>
</context>
<context>
    <name>Save</name>
    <message>
        <source>{file} cannot be written: {why}. Choose another folder or name.</source>
        <translation>{file} kann nicht geschrieben werden: {why}. Anderen Ordner oder Namen wählen.</translation>
    </message>
</context>
<context>
    <name>ScalingAid</name>
    <message>
        <source>&amp;Decimals</source>
        <translation>&amp;Nachkommastellen</translation>
    </message>
    <message>
        <source>&amp;First point</source>
        <translation>&amp;Erster Punkt</translation>
    </message>
    <message>
        <source>&amp;No scaling</source>
        <translation>&amp;Keine Skalierung</translation>
    </message>
    <message>
        <source>&amp;One raw count equals</source>
        <translation>Ein &amp;Rohschritt entspricht</translation>
    </message>
    <message>
        <source>&amp;Second point</source>
        <translation>&amp;Zweiter Punkt</translation>
    </message>
    <message>
        <source>&amp;Test value</source>
        <translation>&amp;Prüfwert</translation>
    </message>
    <message>
        <source>&amp;Use this scale</source>
        <translation>Skalierung &amp;übernehmen</translation>
    </message>
    <message>
        <source>(exactly {value})</source>
        <translation>(genau {value})</translation>
    </message>
    <message>
        <source>; that is one unit of the last decimal shown.</source>
        <translation>; das ist eine Einheit der letzten angezeigten Nachkommastelle.</translation>
    </message>
    <message>
        <source>; the last decimal shown moves in steps.</source>
        <translation>; die letzte angezeigte Nachkommastelle ändert sich in Sprüngen.</translation>
    </message>
    <message>
        <source>; the panel shows fewer decimals than the register holds.</source>
        <translation>; das Panel zeigt weniger Nachkommastellen, als das Register enthält.</translation>
    </message>
    <message>
        <source>Decimals</source>
        <translation>Kommastellen</translation>
    </message>
    <message>
        <source>Fields that are too narrow for it: {places}</source>
        <translation>Dafür zu schmale Felder: {places}</translation>
    </message>
    <message>
        <source>First point, raw</source>
        <translation>Erster Punkt, roh</translation>
    </message>
    <message>
        <source>First point, value</source>
        <translation>Erster Punkt, Wert</translation>
    </message>
    <message>
        <source>It fits all number fields that show the signal.</source>
        <translation>Er passt in alle Zahlenfelder, die das Signal anzeigen.</translation>
    </message>
    <message>
        <source>One raw count equals {count} {unit}</source>
        <translation>Ein Rohschritt entspricht {count} {unit}</translation>
    </message>
    <message>
        <source>Part of this range is outside {encoding}.</source>
        <translation>Ein Teil dieses Bereichs liegt außerhalb von {encoding}.</translation>
    </message>
    <message>
        <source>Raw</source>
        <translation>Roh</translation>
    </message>
    <message>
        <source>Raw &amp;0 equals</source>
        <translation>Roh &amp;0 entspricht</translation>
    </message>
    <message>
        <source>Scaling of &apos;{name}&apos;</source>
        <translation>Skalierung von „{name}“</translation>
    </message>
    <message>
        <source>Second point, raw</source>
        <translation>Zweiter Punkt, roh</translation>
    </message>
    <message>
        <source>Second point, value</source>
        <translation>Zweiter Punkt, Wert</translation>
    </message>
    <message>
        <source>Shown on the panel</source>
        <translation>Auf dem Panel</translation>
    </message>
    <message>
        <source>Test value</source>
        <translation>Prüfwert</translation>
    </message>
    <message>
        <source>Test value, raw</source>
        <translation>Prüfwert, roh</translation>
    </message>
    <message>
        <source>The limits {low} to {high} are raw {first} to {last}.</source>
        <translation>Die Grenzen {low} bis {high} entsprechen roh {first} bis {last}.</translation>
    </message>
    <message>
        <source>The longest text is {text}; cells: {width}.</source>
        <translation>Der längste Text ist {text}; Zellen: {width}.</translation>
    </message>
    <message>
        <source>The value is the raw number</source>
        <translation>Der Wert ist der Rohwert</translation>
    </message>
    <message>
        <source>Two points say which value a raw number of the register means.</source>
        <translation>Zwei Punkte legen fest, welchen Wert ein Rohwert des Registers bedeutet.</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Value of one raw count</source>
        <translation>Wert eines Rohschritts</translation>
    </message>
    <message>
        <source>Value of raw 0</source>
        <translation>Wert von roh 0</translation>
    </message>
    <message>
        <source>and more: {count}</source>
        <translation>und weitere: {count}</translation>
    </message>
    <message>
        <source>both points need raw and value</source>
        <translation>beide Punkte brauchen roh und Wert</translation>
    </message>
    <message>
        <source>raw {raw} is outside {encoding}</source>
        <translation>roh {raw} liegt außerhalb von {encoding}</translation>
    </message>
    <message>
        <source>value = raw x {slope} {sign} {offset}</source>
        <translation>Wert = roh x {slope} {sign} {offset}</translation>
    </message>
    <message>
        <source>{encoding} covers raw {least} to {greatest}: that is {low} to {high}.</source>
        <translation>{encoding} umfasst roh {least} bis {greatest}: das entspricht {low} bis {high}.</translation>
    </message>
</context>
<context>
    <name>ScreenChangeDialog</name>
    <message>
        <source>&amp;Add screen change</source>
        <translation>Bildwechsel &amp;anlegen</translation>
    </message>
    <message>
        <source>&amp;Goes to</source>
        <translation>&amp;Wechselt zu</translation>
    </message>
    <message>
        <source>&amp;Key</source>
        <translation>&amp;Taste</translation>
    </message>
    <message>
        <source>Add screen change from &apos;{screen}&apos;</source>
        <translation>Bildwechsel von „{screen}“ anlegen</translation>
    </message>
    <message>
        <source>Filter the screens</source>
        <translation>Bilder filtern</translation>
    </message>
    <message>
        <source>Goes to</source>
        <translation>Wechselt zu</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>Name of a screen</source>
        <translation>Name eines Bildes</translation>
    </message>
    <message>
        <source>On &amp;every screen, not only on &apos;{screen}&apos;</source>
        <translation>Auf &amp;jedem Bild, nicht nur auf „{screen}“</translation>
    </message>
    <message>
        <source>On the other screens the key {key} stays as it is.</source>
        <translation>Auf den anderen Bildern bleibt die Taste {key} unverändert.</translation>
    </message>
    <message>
        <source>Screens that have their own screen change for the key {key} keep it.</source>
        <translation>Bilder mit einem eigenen Bildwechsel für die Taste {key} behalten ihn.</translation>
    </message>
    <message>
        <source>The key {key} goes to {screen} now; this will be changed.</source>
        <translation>Die Taste {key} wechselt jetzt zu {screen}; das wird geändert.</translation>
    </message>
    <message>
        <source>The key {key} is free on this screen.</source>
        <translation>Die Taste {key} ist auf diesem Bild frei.</translation>
    </message>
    <message>
        <source>The key {key} keeps its actions: {deeds}.</source>
        <translation>Die Taste {key} behält ihre Aktionen: {deeds}.</translation>
    </message>
    <message>
        <source>The panel has no keys yet.</source>
        <translation>Das Panel hat noch keine Tasten.</translation>
    </message>
    <message>
        <source>There is no other screen with that name.</source>
        <translation>Es gibt kein anderes Bild mit diesem Namen.</translation>
    </message>
    <message>
        <source>the next screen</source>
        <translation>das nächste Bild</translation>
    </message>
    <message>
        <source>the previous screen</source>
        <translation>das vorige Bild</translation>
    </message>
    <message>
        <source>{key}: {uses}</source>
        <translation>{key}: {uses}</translation>
    </message>
</context>
<context>
    <name>ScreenCommands</name>
    <message>
        <source>Clear cells</source>
        <translation>Zellen leeren</translation>
    </message>
    <message>
        <source>Delete field</source>
        <translation>Feld löschen</translation>
    </message>
    <message>
        <source>Delete fields</source>
        <translation>Felder löschen</translation>
    </message>
    <message>
        <source>Delete text</source>
        <translation>Text löschen</translation>
    </message>
    <message>
        <source>The row is full. Enter goes to the next one.</source>
        <translation>Die Zeile ist voll. Die Eingabetaste führt zur nächsten.</translation>
    </message>
    <message>
        <source>To delete a field, put the cursor on it.</source>
        <translation>Zum Löschen eines Feldes den Cursor darauf setzen.</translation>
    </message>
    <message>
        <source>Type</source>
        <translation>Tippen</translation>
    </message>
</context>
<context>
    <name>ScreenEditor</name>
    <message>
        <source>&apos;{text}&apos; was not found.</source>
        <translation>„{text}“ wurde nicht gefunden.</translation>
    </message>
    <message>
        <source>Add a screen first, then try it.</source>
        <translation>Zuerst ein Bild anlegen, dann ausprobieren.</translation>
    </message>
    <message>
        <source>Delete</source>
        <translation>Löschen</translation>
    </message>
    <message>
        <source>Does not change the screen here</source>
        <translation>Wechselt hier nicht das Bild</translation>
    </message>
    <message>
        <source>Goes to &apos;{screen}&apos;</source>
        <translation>Wechselt zu „{screen}“</translation>
    </message>
    <message>
        <source>No live values: nothing is connected. Connect with Ctrl+K.</source>
        <translation>Keine Livewerte: nicht verbunden. Verbinden mit Strg+K.</translation>
    </message>
    <message>
        <source>On this screen the key {key} does not change the screen.</source>
        <translation>Auf diesem Bild wechselt die Taste {key} nicht zu einem anderen Bild.</translation>
    </message>
    <message>
        <source>Place a field…</source>
        <translation>Feld platzieren…</translation>
    </message>
    <message>
        <source>Properties</source>
        <translation>Eigenschaften</translation>
    </message>
    <message>
        <source>Show as</source>
        <translation>Anzeigen als</translation>
    </message>
    <message>
        <source>This project has no screens yet.
Add one with the plus sign above the list on the left.</source>
        <translation>Dieses Projekt hat noch keine Bilder.
Das Pluszeichen über der Liste links legt eines an.</translation>
    </message>
    <message>
        <source>What it does</source>
        <translation>Was sie tut</translation>
    </message>
    <message>
        <source>What this key does</source>
        <translation>Was diese Taste tut</translation>
    </message>
    <message>
        <source>last value {value}; {reason}</source>
        <translation>letzter Wert {value}; {reason}</translation>
    </message>
    <message>
        <source>no value: {reason}</source>
        <translation>kein Wert: {reason}</translation>
    </message>
    <message>
        <source>reads {value}</source>
        <translation>zeigt {value}</translation>
    </message>
    <message>
        <source>reads {value}, doubtful: {reason}</source>
        <translation>zeigt {value}, zweifelhaft: {reason}</translation>
    </message>
    <message>
        <source>the signal was changed after connecting; connect again</source>
        <translation>das Signal wurde nach dem Verbinden geändert; neu verbinden</translation>
    </message>
</context>
<context>
    <name>ScreenForm</name>
    <message>
        <source>Add a screen change</source>
        <translation>Bildwechsel hinzufügen</translation>
    </message>
    <message>
        <source>Add what a key does</source>
        <translation>Taste belegen</translation>
    </message>
    <message>
        <source>Change screen</source>
        <translation>Bild ändern</translation>
    </message>
    <message>
        <source>Change the start screen</source>
        <translation>Startbild ändern</translation>
    </message>
    <message>
        <source>Documentation</source>
        <translation>Dokumentation</translation>
    </message>
    <message>
        <source>Enter or a click shows it in the Keys and screen changes view</source>
        <translation>Enter oder ein Klick zeigt es unter Tasten und Bildwechsel</translation>
    </message>
    <message>
        <source>From here</source>
        <translation>Von hier</translation>
    </message>
    <message>
        <source>Keys on this screen</source>
        <translation>Tasten auf diesem Bild</translation>
    </message>
    <message>
        <source>Make it the start screen</source>
        <translation>Zum Startbild machen</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notizen</translation>
    </message>
    <message>
        <source>Opened by</source>
        <translation>Geöffnet durch</translation>
    </message>
    <message>
        <source>Renaming updates every use</source>
        <translation>Umbenennen ändert alle Verwendungen</translation>
    </message>
    <message>
        <source>Text here blinks when…</source>
        <translation>Text hier blinkt, wenn…</translation>
    </message>
    <message>
        <source>The selected cells, or the whole screen (Ctrl+Alt+K)</source>
        <translation>Die ausgewählten Zellen oder der ganze Bildschirm (Strg+Alt+K)</translation>
    </message>
    <message>
        <source>To here</source>
        <translation>Hierher</translation>
    </message>
    <message>
        <source>{n} of {count} used</source>
        <translation>{n} von {count} belegt</translation>
    </message>
</context>
<context>
    <name>ScreenPair</name>
    <message>
        <source>This screen does not exist on this side.</source>
        <translation>Dieses Bild gibt es auf dieser Seite nicht.</translation>
    </message>
</context>
<context>
    <name>ScreensList</name>
    <message>
        <source>&amp;Copy</source>
        <translation>&amp;Kopieren</translation>
    </message>
    <message>
        <source>&amp;Make it the start screen</source>
        <translation>Zum Star&amp;tbild machen</translation>
    </message>
    <message>
        <source>&amp;Paste</source>
        <translation>&amp;Einfügen</translation>
    </message>
    <message>
        <source>Add a screen</source>
        <translation>Bild anlegen</translation>
    </message>
    <message>
        <source>Add a screen (Insert)</source>
        <translation>Bild anlegen (Einfg)</translation>
    </message>
    <message>
        <source>De&amp;lete</source>
        <translation>&amp;Löschen</translation>
    </message>
    <message>
        <source>Dupl&amp;icate</source>
        <translation>&amp;Duplizieren</translation>
    </message>
    <message>
        <source>Duplicate the screen</source>
        <translation>Bild duplizieren</translation>
    </message>
    <message>
        <source>Duplicate the screen (Ctrl+D)</source>
        <translation>Bild duplizieren (Strg+D)</translation>
    </message>
    <message>
        <source>More that can be done with screens</source>
        <translation>Mehr zu den Bildern</translation>
    </message>
    <message>
        <source>Move &amp;down in the list</source>
        <translation>In der Liste nach &amp;unten</translation>
    </message>
    <message>
        <source>Move &amp;up in the list</source>
        <translation>In der Liste nach &amp;oben</translation>
    </message>
    <message>
        <source>Rename</source>
        <translation>Umbenennen</translation>
    </message>
    <message>
        <source>Screens</source>
        <translation>Bilder</translation>
    </message>
</context>
<context>
    <name>ScreensOfDialog</name>
    <message>
        <source>&amp;From one to the next</source>
        <translation>Von einem zum &amp;nächsten</translation>
    </message>
    <message>
        <source>&amp;Title</source>
        <translation>&amp;Titel</translation>
    </message>
    <message>
        <source>A screen of these signals</source>
        <translation>Ein Bild aus diesen Signalen</translation>
    </message>
    <message>
        <source>Make screens</source>
        <translation>Bilder anlegen</translation>
    </message>
    <message>
        <source>Make screens of {count} signals</source>
        <translation>Bilder aus {count} Signalen anlegen</translation>
    </message>
    <message>
        <source>Signals stand in rows with label, value and unit, on as many new screens as they need.</source>
        <translation>Die Signale stehen zeilenweise mit Beschriftung, Wert und Einheit auf so vielen neuen Bildern wie nötig.</translation>
    </message>
    <message>
        <source>The first of the screens</source>
        <translation>Das erste der Bilder</translation>
    </message>
    <message>
        <source>The screens are called after the title.</source>
        <translation>Die Bilder heißen nach dem Titel.</translation>
    </message>
    <message>
        <source>Title in the first ro&amp;w</source>
        <translation>Titel in der ersten &amp;Zeile</translation>
    </message>
    <message>
        <source>Values</source>
        <translation>Werte</translation>
    </message>
    <message>
        <source>a ring by {onward} alone</source>
        <translation>Ring nur mit {onward}</translation>
    </message>
    <message>
        <source>a ring by {onward} and {back}</source>
        <translation>Ring mit {onward} und {back}</translation>
    </message>
    <message>
        <source>no screen changes</source>
        <translation>keine Bildwechsel</translation>
    </message>
    <message>
        <source>{signals} signals on {screens} screens: {names}</source>
        <translation>{signals} Signale auf {screens} Bildern: {names}</translation>
    </message>
</context>
<context>
    <name>ScreensPane</name>
    <message>
        <source>Add screen</source>
        <translation>Bild anlegen</translation>
    </message>
    <message>
        <source>Change the start screen</source>
        <translation>Startbild ändern</translation>
    </message>
    <message>
        <source>Delete it with these screen changes</source>
        <translation>Mit diesen Bildwechseln löschen</translation>
    </message>
    <message>
        <source>Delete screen</source>
        <translation>Bild löschen</translation>
    </message>
    <message>
        <source>Delete screens</source>
        <translation>Bilder löschen</translation>
    </message>
    <message>
        <source>Duplicate screen</source>
        <translation>Bild duplizieren</translation>
    </message>
    <message>
        <source>Move screen</source>
        <translation>Bild verschieben</translation>
    </message>
    <message>
        <source>Rename screen</source>
        <translation>Bild umbenennen</translation>
    </message>
    <message>
        <source>has errors</source>
        <translation>hat Fehler</translation>
    </message>
    <message>
        <source>no way back</source>
        <translation>kein Weg zurück</translation>
    </message>
    <message>
        <source>screen</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>start</source>
        <translation>Start</translation>
    </message>
    <message>
        <source>unreachable</source>
        <translation>nicht erreichbar</translation>
    </message>
</context>
<context>
    <name>SearchPage</name>
    <message>
        <source>Address of the maker</source>
        <translation>Adresse des Herstellers</translation>
    </message>
    <message>
        <source>Another client asks devices on this line, so nothing was sent. This is what was heard.</source>
        <translation>Ein anderer Client fragt Geräte an dieser Leitung ab, deshalb wurde nichts gesendet. Das wurde gehört.</translation>
    </message>
    <message>
        <source>Another client spoke. Devices that answered until then: {count}.</source>
        <translation>Ein anderer Client hat gesprochen. Geräte, die bis dahin antworteten: {count}.</translation>
    </message>
    <message>
        <source>Application</source>
        <translation>Anwendung</translation>
    </message>
    <message>
        <source>Calls itself</source>
        <translation>Nennt sich</translation>
    </message>
    <message>
        <source>Devices that answer</source>
        <translation>Geräte, die antworten</translation>
    </message>
    <message>
        <source>Each one is listed here as soon as it answers. The search can be stopped, and go on later.</source>
        <translation>Jedes steht hier, sobald es antwortet. Die Suche lässt sich anhalten und später fortsetzen.</translation>
    </message>
    <message>
        <source>Functions that read</source>
        <translation>Lesende Funktionen</translation>
    </message>
    <message>
        <source>Longest read</source>
        <translation>Längstes Lesen</translation>
    </message>
    <message>
        <source>Maker</source>
        <translation>Hersteller</translation>
    </message>
    <message>
        <source>Model</source>
        <translation>Modell</translation>
    </message>
    <message>
        <source>No device answered.</source>
        <translation>Kein Gerät hat geantwortet.</translation>
    </message>
    <message>
        <source>No device has answered yet</source>
        <translation>Noch hat kein Gerät geantwortet</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>Nothing was searched yet.</source>
        <translation>Es wurde noch nicht gesucht.</translation>
    </message>
    <message>
        <source>Opening the line.</source>
        <translation>Leitung wird geöffnet.</translation>
    </message>
    <message>
        <source>Product</source>
        <translation>Produkt</translation>
    </message>
    <message>
        <source>Product code</source>
        <translation>Bestellnummer</translation>
    </message>
    <message>
        <source>Requests</source>
        <translation>Anfragen</translation>
    </message>
    <message>
        <source>Response time</source>
        <translation>Antwortzeit</translation>
    </message>
    <message>
        <source>Revision</source>
        <translation>Version</translation>
    </message>
    <message>
        <source>Settings: {settings}</source>
        <translation>Einstellungen: {settings}</translation>
    </message>
    <message>
        <source>Stopped. Devices that answer so far: {count}. The search can go on where it was.</source>
        <translation>Angehalten. Geräte, die bisher antworten: {count}. Die Suche lässt sich an dieser Stelle fortsetzen.</translation>
    </message>
    <message>
        <source>Stopped: no device has answered so far. The search can go on where it was.</source>
        <translation>Angehalten: Bisher hat kein Gerät geantwortet. Die Suche lässt sich an dieser Stelle fortsetzen.</translation>
    </message>
    <message>
        <source>Stopping.</source>
        <translation>Wird gestoppt.</translation>
    </message>
    <message>
        <source>The line is gone. Devices that answered until then: {count}.</source>
        <translation>Die Leitung ist weg. Geräte, die bis dahin antworteten: {count}.</translation>
    </message>
    <message>
        <source>The search is finished: one device answers.</source>
        <translation>Die Suche ist fertig: Ein Gerät antwortet.</translation>
    </message>
    <message>
        <source>The search is finished: {count} devices answer.</source>
        <translation>Die Suche ist fertig: {count} Geräte antworten.</translation>
    </message>
    <message>
        <source>The time is over. Devices that answer so far: {count}.</source>
        <translation>Die Zeit ist um. Geräte, die bisher antworten: {count}.</translation>
    </message>
    <message>
        <source>What another client asks for</source>
        <translation>Was ein anderer Client abfragt</translation>
    </message>
    <message>
        <source>What is known of the chosen device</source>
        <translation>Was vom gewählten Gerät bekannt ist</translation>
    </message>
    <message>
        <source>Wire addresses</source>
        <translation>Adressen (Leitung)</translation>
    </message>
    <message>
        <source>about {time} left</source>
        <translation>noch etwa {time}</translation>
    </message>
    <message>
        <source>listened for {time}</source>
        <translation>{time} mitgehört</translation>
    </message>
    <message>
        <source>median {median}; 99 of 100 answers within {slow}</source>
        <translation>Median {median}; 99 von 100 Antworten innerhalb von {slow}</translation>
    </message>
    <message>
        <source>nothing written</source>
        <translation>nichts geschrieben</translation>
    </message>
    <message>
        <source>one at a time</source>
        <translation>eine nach der anderen</translation>
    </message>
    <message>
        <source>parity not told by this port</source>
        <translation>Parität von diesem Anschluss nicht erkennbar</translation>
    </message>
    <message>
        <source>reads {registers}</source>
        <translation>liest {registers}</translation>
    </message>
    <message>
        <source>stop it to go on with what was found</source>
        <translation>anhalten, um mit dem Gefundenen weiterzumachen</translation>
    </message>
    <message>
        <source>two at a time; more was not tried</source>
        <translation>zwei zugleich; mehr wurde nicht probiert</translation>
    </message>
    <message>
        <source>writes {registers}</source>
        <translation>schreibt {registers}</translation>
    </message>
    <message>
        <source>{answered} of {asked}</source>
        <translation>{answered} von {asked}</translation>
    </message>
    <message>
        <source>{count} registers</source>
        <translation>{count} Register</translation>
    </message>
    <message>
        <source>{probes} requests in {time}</source>
        <translation>{probes} Anfragen in {time}</translation>
    </message>
</context>
<context>
    <name>SentenceDelegate</name>
    <message>
        <source>Add</source>
        <translation>Hinzufügen</translation>
    </message>
</context>
<context>
    <name>SentenceEditor</name>
    <message>
        <source>Delete</source>
        <translation>Löschen</translation>
    </message>
    <message>
        <source>Delete (Del)</source>
        <translation>Löschen (Entf)</translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation>Duplizieren</translation>
    </message>
    <message>
        <source>Duplicate (Ctrl+D)</source>
        <translation>Duplizieren (Strg+D)</translation>
    </message>
    <message>
        <source>there is no “{name}”</source>
        <translation>„{name}“ gibt es nicht</translation>
    </message>
    <message>
        <source>{name}: {value}</source>
        <translation>{name}: {value}</translation>
    </message>
    <message>
        <source>{note}. Missing: {what}</source>
        <translation>{note}. Es fehlt: {what}</translation>
    </message>
</context>
<context>
    <name>SentenceModel</name>
    <message>
        <source>On every screen</source>
        <translation>Auf jedem Bild</translation>
    </message>
    <message>
        <source>On screen {name}</source>
        <translation>Auf Bild {name}</translation>
    </message>
    <message>
        <source>Without a key</source>
        <translation>Ohne Taste</translation>
    </message>
    <message>
        <source>before all others</source>
        <translation>vor allen anderen</translation>
    </message>
    <message>
        <source>missing: {what}</source>
        <translation>es fehlt: {what}</translation>
    </message>
    <message>
        <source>not complete: acts as before</source>
        <translation>nicht vollständig: wirkt wie bisher</translation>
    </message>
    <message>
        <source>not complete: has no effect yet</source>
        <translation>nicht vollständig: noch ohne Wirkung</translation>
    </message>
    <message>
        <source>{title}, {count}. Insert adds a sentence</source>
        <translation>{title}, {count}. Einfg fügt einen Satz hinzu</translation>
    </message>
</context>
<context>
    <name>Sentences</name>
    <message>
        <source>After {idle} without a key {deed}</source>
        <translation>Nach {idle} ohne Taste {deed}</translation>
    </message>
    <message>
        <source>Cause</source>
        <translation>Auslöser</translation>
    </message>
    <message>
        <source>Comparison</source>
        <translation>Vergleich</translation>
    </message>
    <message>
        <source>Held value</source>
        <translation>Panelwert</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>Key {key} {deed}</source>
        <translation>Taste {key} {deed}</translation>
    </message>
    <message>
        <source>On screen</source>
        <translation>Auf Bild</translation>
    </message>
    <message>
        <source>Signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>Signal of the condition</source>
        <translation>Signal der Bedingung</translation>
    </message>
    <message>
        <source>Stop command</source>
        <translation>Stoppbefehl</translation>
    </message>
    <message>
        <source>Target screen</source>
        <translation>Zielbild</translation>
    </message>
    <message>
        <source>Time without a key</source>
        <translation>Zeit ohne Taste</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Value to compare with</source>
        <translation>Vergleichswert</translation>
    </message>
    <message>
        <source>What it does</source>
        <translation>Wirkung</translation>
    </message>
    <message>
        <source>When {signal} {is} {deed}</source>
        <translation>Sobald {signal} {is} ist, {deed}</translation>
    </message>
    <message>
        <source>When {signal} {is} {value} {deed}</source>
        <translation>Sobald {signal} {is} {value} ist, {deed}</translation>
    </message>
    <message>
        <source>While {signal} {is} {deed}</source>
        <translation>Solange {signal} {is} ist, {deed}</translation>
    </message>
    <message>
        <source>While {signal} {is} {value} {deed}</source>
        <translation>Solange {signal} {is} {value} ist, {deed}</translation>
    </message>
    <message>
        <source>after time without a key</source>
        <translation>nach einer Zeit ohne Taste</translation>
    </message>
    <message>
        <source>becomes clear</source>
        <translation>gelöscht</translation>
    </message>
    <message>
        <source>becomes equal to</source>
        <translation>gleich</translation>
    </message>
    <message>
        <source>becomes set</source>
        <translation>gesetzt</translation>
    </message>
    <message>
        <source>by a condition</source>
        <translation>durch eine Bedingung</translation>
    </message>
    <message>
        <source>by a key</source>
        <translation>durch eine Taste</translation>
    </message>
    <message>
        <source>equals</source>
        <translation>gleich</translation>
    </message>
    <message>
        <source>every screen</source>
        <translation>jedem Bild</translation>
    </message>
    <message>
        <source>falls below</source>
        <translation>kleiner als</translation>
    </message>
    <message>
        <source>how long?</source>
        <translation>wie lange?</translation>
    </message>
    <message>
        <source>is above</source>
        <translation>größer als</translation>
    </message>
    <message>
        <source>is below</source>
        <translation>kleiner als</translation>
    </message>
    <message>
        <source>is clear</source>
        <translation>gelöscht</translation>
    </message>
    <message>
        <source>is set</source>
        <translation>gesetzt</translation>
    </message>
    <message>
        <source>is what?</source>
        <translation>was?</translation>
    </message>
    <message>
        <source>its 0 repeated until confirmed</source>
        <translation>0 wiederholt bis zur Bestätigung</translation>
    </message>
    <message>
        <source>repeated until confirmed</source>
        <translation>wiederholt bis zur Bestätigung</translation>
    </message>
    <message>
        <source>rises above</source>
        <translation>größer als</translation>
    </message>
    <message>
        <source>sent once</source>
        <translation>einmal gesendet</translation>
    </message>
    <message>
        <source>the first entry field</source>
        <translation>das erste Eingabefeld</translation>
    </message>
    <message>
        <source>the next screen</source>
        <translation>das nächste Bild</translation>
    </message>
    <message>
        <source>the previous screen</source>
        <translation>das vorige Bild</translation>
    </message>
    <message>
        <source>the project has no held value yet; add one in the Signals view</source>
        <translation>das Projekt hat noch keinen Panelwert; in der Ansicht „Signale“ anlegen</translation>
    </message>
    <message>
        <source>the time must be 1 to {most} s</source>
        <translation>die Zeit muss 1 bis {most} s sein</translation>
    </message>
    <message>
        <source>which held value?</source>
        <translation>welcher Panelwert?</translation>
    </message>
    <message>
        <source>which key?</source>
        <translation>welche Taste?</translation>
    </message>
    <message>
        <source>which one?</source>
        <translation>welches?</translation>
    </message>
    <message>
        <source>which signal?</source>
        <translation>welches Signal?</translation>
    </message>
    <message>
        <source>which value?</source>
        <translation>welcher Wert?</translation>
    </message>
    <message>
        <source>{sentence} on {from}</source>
        <translation>{sentence} auf {from}</translation>
    </message>
    <message>
        <source>{sentence}, {stops}</source>
        <translation>{sentence}, {stops}</translation>
    </message>
</context>
<context>
    <name>SerialChoice</name>
    <message>
        <source>Serial port</source>
        <translation>Serielle Schnittstelle</translation>
    </message>
    <message>
        <source>in use</source>
        <translation>belegt</translation>
    </message>
    <message>
        <source>in use by this program</source>
        <translation>von diesem Programm belegt</translation>
    </message>
    <message>
        <source>new</source>
        <translation>neu</translation>
    </message>
    <message>
        <source>no permission</source>
        <translation>keine Berechtigung</translation>
    </message>
    <message>
        <source>serial number {number}</source>
        <translation>Seriennummer {number}</translation>
    </message>
</context>
<context>
    <name>SheetView</name>
    <message>
        <source>Rows of the file</source>
        <translation>Zeilen der Datei</translation>
    </message>
</context>
<context>
    <name>ShortcutsDialog</name>
    <message>
        <source>&amp;Copy as text</source>
        <translation>Als Text &amp;kopieren</translation>
    </message>
    <message>
        <source>Command</source>
        <translation>Befehl</translation>
    </message>
    <message>
        <source>Key {name}</source>
        <translation>Taste {name}</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Keys and shortcuts</source>
        <translation>Tasten und Kürzel</translation>
    </message>
    <message>
        <source>Parts of a command or of a key</source>
        <translation>Teile eines Befehls oder einer Taste</translation>
    </message>
    <message>
        <source>Search term</source>
        <translation>Suchbegriff</translation>
    </message>
    <message>
        <source>The panel, while it has the focus</source>
        <translation>Das Panel, solange es den Fokus hat</translation>
    </message>
</context>
<context>
    <name>ShownModel</name>
    <message>
        <source>Display shows</source>
        <translation>Anzeige zeigt</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>Nr.</translation>
    </message>
    <message>
        <source>Registers read</source>
        <translation>Register gelesen</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>no evidence: 0</source>
        <translation>beweist nichts: 0</translation>
    </message>
    <message>
        <source>no evidence: the same value again</source>
        <translation>beweist nichts: derselbe Wert noch einmal</translation>
    </message>
</context>
<context>
    <name>SidePane</name>
    <message>
        <source>Afterwards: {number}</source>
        <translation>Danach: {number}</translation>
    </message>
    <message>
        <source>Before: {number}</source>
        <translation>Vorher: {number}</translation>
    </message>
    <message>
        <source>Panel</source>
        <translation>Panel</translation>
    </message>
    <message>
        <source>Panel at the end of this step</source>
        <translation>Panel am Ende dieses Schritts</translation>
    </message>
    <message>
        <source>Panel now</source>
        <translation>Panel jetzt</translation>
    </message>
    <message>
        <source>Step {number}</source>
        <translation>Schritt {number}</translation>
    </message>
    <message>
        <source>Trial</source>
        <translation>Abnahme</translation>
    </message>
</context>
<context>
    <name>SignDialog</name>
    <message>
        <source>&amp;Another key…</source>
        <translation>&amp;Anderer Schlüssel …</translation>
    </message>
    <message>
        <source>&amp;Copy the command</source>
        <translation>Befehl &amp;kopieren</translation>
    </message>
    <message>
        <source>&amp;Key</source>
        <translation>&amp;Schlüssel</translation>
    </message>
    <message>
        <source>&amp;Pass phrase</source>
        <translation>&amp;Passphrase</translation>
    </message>
    <message>
        <source>&amp;Repeat it</source>
        <translation>&amp;Wiederholen</translation>
    </message>
    <message>
        <source>&amp;Sign</source>
        <translation>S&amp;ignieren</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Command that tells which key has signed</source>
        <translation>Befehl, der zeigt, welcher Schlüssel signiert hat</translation>
    </message>
    <message>
        <source>Make a new key here</source>
        <translation>Neuen Schlüssel anlegen</translation>
    </message>
    <message>
        <source>Make it and &amp;sign</source>
        <translation>Anlegen und s&amp;ignieren</translation>
    </message>
    <message>
        <source>Open a key</source>
        <translation>Schlüssel öffnen</translation>
    </message>
    <message>
        <source>Press again to make it so.</source>
        <translation>Zum Anlegen ohne Passphrase noch einmal drücken.</translation>
    </message>
    <message>
        <source>Sign the record?</source>
        <translation>Protokoll signieren?</translation>
    </message>
    <message>
        <source>Signed</source>
        <translation>Signiert</translation>
    </message>
    <message>
        <source>The key is kept in {file}. Choose a pass phrase that nobody else knows.</source>
        <translation>Der Schlüssel wird in {file} abgelegt. Eine Passphrase wählen, die sonst niemand kennt.</translation>
    </message>
    <message>
        <source>The key is {fingerprint}. A signature is worth what the other side knows of the key: hand this fingerprint over by another way, such as by phone or on paper. The command below tells it without Fanlight.</source>
        <translation>Der Schlüssel ist {fingerprint}. Eine Signatur ist so viel wert, wie die Gegenseite vom Schlüssel weiß: Diesen Fingerabdruck auf anderem Weg übergeben, etwa am Telefon oder auf Papier. Der Befehl unten zeigt ihn ohne Fanlight.</translation>
    </message>
    <message>
        <source>The signature says that {file} is as you saw it, and proves every later change.</source>
        <translation>Die Signatur bestätigt {file} im jetzigen Zustand und weist jede spätere Änderung nach.</translation>
    </message>
    <message>
        <source>The two pass phrases differ.</source>
        <translation>Die beiden Passphrasen sind verschieden.</translation>
    </message>
    <message>
        <source>{file} is signed. The signature stands beside it as {signature}.</source>
        <translation>{file} ist signiert. Die Signatur liegt daneben als {signature}.</translation>
    </message>
</context>
<context>
    <name>SignalCells</name>
    <message>
        <source>&apos;{name}&apos; has no bits; enter a register signal</source>
        <translation>„{name}“ hat keine Bits; ein Registersignal angeben</translation>
    </message>
    <message>
        <source>Data type</source>
        <translation>Datentyp</translation>
    </message>
    <message>
        <source>Data type of the value in the registers; a string with its number of registers: string 8</source>
        <translation>Datentyp des Wertes in den Registern; ein String mit der Anzahl seiner Register: string 8</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>How many fields, screen changes, actions and bits use it</source>
        <translation>Wie viele Felder, Bildwechsel, Aktionen und Bits es verwenden</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Not used yet</source>
        <translation>Noch nirgends verwendet</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Renaming updates every use</source>
        <translation>Umbenennen ändert alle Verwendungen</translation>
    </message>
    <message>
        <source>Role in simulation</source>
        <translation>Rolle (Simulation)</translation>
    </message>
    <message>
        <source>Start</source>
        <translation>Start</translation>
    </message>
    <message>
        <source>Start value of a held value, or of a register in the simulated device</source>
        <translation>Startwert eines Panelwerts oder eines Registers im simulierten Gerät</translation>
    </message>
    <message>
        <source>Table</source>
        <translation>Tabelle</translation>
    </message>
    <message>
        <source>The device that it is read from; for a bit, the signal that contains it</source>
        <translation>Das Gerät, von dem es gelesen wird; bei einem Bit das Signal, das es enthält</translation>
    </message>
    <message>
        <source>The number from the manual of the device; for a bit its number, from 0</source>
        <translation>Die Nummer aus dem Handbuch des Geräts; bei einem Bit seine Nummer, ab 0</translation>
    </message>
    <message>
        <source>Used</source>
        <translation>Benutzt</translation>
    </message>
    <message>
        <source>a bit needs the signal that contains it</source>
        <translation>ein Bit braucht das Signal, das es enthält</translation>
    </message>
    <message>
        <source>a new signal needs a name</source>
        <translation>ein neues Signal braucht einen Namen</translation>
    </message>
    <message>
        <source>a register needs a device; add one first</source>
        <translation>ein Register braucht ein Gerät; zuerst eines anlegen</translation>
    </message>
    <message>
        <source>a string needs its length in registers: string 8</source>
        <translation>ein String braucht seine Länge in Registern: string 8</translation>
    </message>
    <message>
        <source>and more: {count}</source>
        <translation>und weitere: {count}</translation>
    </message>
    <message>
        <source>bit</source>
        <translation>Bit</translation>
    </message>
    <message>
        <source>bit {number}</source>
        <translation>Bit {number}</translation>
    </message>
    <message>
        <source>coil</source>
        <translation>coil</translation>
    </message>
    <message>
        <source>discrete</source>
        <translation>discrete</translation>
    </message>
    <message>
        <source>enter two points: 0 to 10000 = 0 to 50</source>
        <translation>zwei Punkte eingeben: 0 bis 10000 = 0 bis 50</translation>
    </message>
    <message>
        <source>enter two points: 0 to 10000 = 0 to 50; or a factor: x 0.1</source>
        <translation>zwei Punkte eingeben: 0 bis 10000 = 0 bis 50; oder einen Faktor: x 0.1</translation>
    </message>
    <message>
        <source>held</source>
        <translation>Panelwert</translation>
    </message>
    <message>
        <source>holding</source>
        <translation>holding</translation>
    </message>
    <message>
        <source>holding, input, coil, discrete; bit (of another signal); held (in the panel)</source>
        <translation>holding, input, coil, discrete; Bit (eines anderen Signals); Panelwert (im Panel)</translation>
    </message>
    <message>
        <source>input</source>
        <translation>input</translation>
    </message>
    <message>
        <source>no</source>
        <translation>nein</translation>
    </message>
    <message>
        <source>only a string has a length: string 8</source>
        <translation>nur ein String hat eine Länge: string 8</translation>
    </message>
    <message>
        <source>signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; does not exist</source>
        <translation>das Signal „{name}“ gibt es nicht</translation>
    </message>
    <message>
        <source>the value {key} already has a text</source>
        <translation>der Wert {key} hat schon einen Text</translation>
    </message>
    <message>
        <source>to</source>
        <translation>bis</translation>
    </message>
    <message>
        <source>yes</source>
        <translation>ja</translation>
    </message>
</context>
<context>
    <name>SignalForm</name>
    <message>
        <source>1 cell</source>
        <translation>1 Zelle</translation>
    </message>
    <message>
        <source>Address (from 0)</source>
        <translation>Adresse (ab 0)</translation>
    </message>
    <message>
        <source>Bit</source>
        <translation>Bit</translation>
    </message>
    <message>
        <source>Calculate…</source>
        <translation>Berechnen…</translation>
    </message>
    <message>
        <source>Change scaling</source>
        <translation>Skalierung ändern</translation>
    </message>
    <message>
        <source>Change signal</source>
        <translation>Signal ändern</translation>
    </message>
    <message>
        <source>Click or press Enter to go there</source>
        <translation>Klick oder Eingabetaste führt dorthin</translation>
    </message>
    <message>
        <source>Counted from 0 at the least significant bit</source>
        <translation>Ab 0 vom niederwertigsten Bit gezählt</translation>
    </message>
    <message>
        <source>Data type</source>
        <translation>Datentyp</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Display</source>
        <translation>Anzeige</translation>
    </message>
    <message>
        <source>Documentation</source>
        <translation>Dokumentation</translation>
    </message>
    <message>
        <source>In signal</source>
        <translation>In Signal</translation>
    </message>
    <message>
        <source>Kind</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Looks wrong…</source>
        <translation>Sieht falsch aus…</translation>
    </message>
    <message>
        <source>Lower limit</source>
        <translation>Untere Grenze</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Off by one, another order, data type or scale: see its registers in every way</source>
        <translation>Um eins versetzt, andere Reihenfolge, anderer Datentyp oder andere Skalierung: seine Register auf jede Weise sehen</translation>
    </message>
    <message>
        <source>One text per value, one per line, for example 1 = running. otherwise = unknown applies to all other values</source>
        <translation>Ein Text je Wert, einer je Zeile, zum Beispiel 1 = läuft. otherwise = unbekannt gilt für alle anderen Werte</translation>
    </message>
    <message>
        <source>Only a number in registers can be read in several ways.</source>
        <translation>Nur eine Zahl in Registern kann auf mehrere Weisen gelesen werden.</translation>
    </message>
    <message>
        <source>Only a number in registers can be scaled.</source>
        <translation>Nur eine Zahl in Registern lässt sich skalieren.</translation>
    </message>
    <message>
        <source>Range</source>
        <translation>Wertebereich</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Renaming updates every use</source>
        <translation>Umbenennen ändert alle Verwendungen</translation>
    </message>
    <message>
        <source>Scale, from</source>
        <translation>Skalierung, von</translation>
    </message>
    <message>
        <source>Scale, to</source>
        <translation>Skalierung, bis</translation>
    </message>
    <message>
        <source>Scaling</source>
        <translation>Skalierung</translation>
    </message>
    <message>
        <source>Set the scaling by two points or by a factor, and see the result</source>
        <translation>Skalierung über zwei Punkte oder einen Faktor festlegen, mit Ergebnis</translation>
    </message>
    <message>
        <source>Simulation</source>
        <translation>Simulation</translation>
    </message>
    <message>
        <source>Source</source>
        <translation>Quelle</translation>
    </message>
    <message>
        <source>Start value</source>
        <translation>Startwert</translation>
    </message>
    <message>
        <source>Table</source>
        <translation>Tabelle</translation>
    </message>
    <message>
        <source>The address in the request, counted from 0</source>
        <translation>Die Adresse in der Anfrage, ab 0 gezählt</translation>
    </message>
    <message>
        <source>Two points of a straight line: raw values of the register and the values that they stand for. Empty: no scaling</source>
        <translation>Zwei Punkte einer Geraden: Rohwerte des Registers und die zugehörigen Werte. Leer: keine Skalierung</translation>
    </message>
    <message>
        <source>Upper limit</source>
        <translation>Obere Grenze</translation>
    </message>
    <message>
        <source>Used by</source>
        <translation>Verwendet von</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Writing and polling</source>
        <translation>Schreiben und Abfragen</translation>
    </message>
    <message>
        <source>coil</source>
        <translation>Coil</translation>
    </message>
    <message>
        <source>discrete input</source>
        <translation>Discrete Input</translation>
    </message>
    <message>
        <source>e.g. 0 = stopped
1 = running
otherwise = unknown</source>
        <translation>z. B. 0 = steht
1 = läuft
otherwise = unbekannt</translation>
    </message>
    <message>
        <source>enter both raw and value, or neither</source>
        <translation>roh und Wert angeben oder keins von beiden</translation>
    </message>
    <message>
        <source>enter the other point too, or neither</source>
        <translation>auch den anderen Punkt angeben oder keinen</translation>
    </message>
    <message>
        <source>held in the panel</source>
        <translation>im Panel gehalten</translation>
    </message>
    <message>
        <source>holding register</source>
        <translation>Holding-Register</translation>
    </message>
    <message>
        <source>input register</source>
        <translation>Input-Register</translation>
    </message>
    <message>
        <source>line {n}: enter value = text</source>
        <translation>Zeile {n}: Wert = Text eingeben</translation>
    </message>
    <message>
        <source>line {n}: the value {key} already has a text</source>
        <translation>Zeile {n}: der Wert {key} hat schon einen Text</translation>
    </message>
    <message>
        <source>line {n}: {why}</source>
        <translation>Zeile {n}: {why}</translation>
    </message>
    <message>
        <source>nothing yet</source>
        <translation>noch von nichts</translation>
    </message>
    <message>
        <source>one bit of another signal</source>
        <translation>ein Bit eines anderen Signals</translation>
    </message>
    <message>
        <source>raw =</source>
        <translation>roh =</translation>
    </message>
    <message>
        <source>read from a device</source>
        <translation>von einem Gerät gelesen</translation>
    </message>
    <message>
        <source>the other point is not complete yet</source>
        <translation>der andere Punkt ist noch nicht vollständig</translation>
    </message>
    <message>
        <source>to</source>
        <translation>bis</translation>
    </message>
    <message>
        <source>unlimited</source>
        <translation>unbegrenzt</translation>
    </message>
    <message>
        <source>{first} to {last}</source>
        <translation>{first} bis {last}</translation>
    </message>
    <message>
        <source>{label}, raw</source>
        <translation>{label}, roh</translation>
    </message>
    <message>
        <source>{label}, value</source>
        <translation>{label}, Wert</translation>
    </message>
    <message>
        <source>{low} to {high} {unit}</source>
        <translation>{low} bis {high} {unit}</translation>
    </message>
    <message>
        <source>{wide} cells</source>
        <translation>{wide} Zellen</translation>
    </message>
</context>
<context>
    <name>SignalLists</name>
    <message>
        <source>Imported signals: {count}. Undo once to remove them.</source>
        <translation>Importierte Signale: {count}. Einmal Rückgängig entfernt sie wieder.</translation>
    </message>
    <message>
        <source>Signals exported to {file}</source>
        <translation>Signale nach {file} exportiert</translation>
    </message>
    <message>
        <source>There are no signals to export yet.</source>
        <translation>Es gibt noch keine Signale zum Exportieren.</translation>
    </message>
    <message>
        <source>signals</source>
        <translation>Signale</translation>
    </message>
</context>
<context>
    <name>SignalPicker</name>
    <message>
        <source>Filter the signals</source>
        <translation>Signale filtern</translation>
    </message>
    <message>
        <source>Kind of field</source>
        <translation>Art des Feldes</translation>
    </message>
    <message>
        <source>Name or register of a signal</source>
        <translation>Name oder Register eines Signals</translation>
    </message>
    <message>
        <source>New signal…</source>
        <translation>Neues Signal…</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Platzieren</translation>
    </message>
    <message>
        <source>Place a field</source>
        <translation>Feld platzieren</translation>
    </message>
    <message>
        <source>Shown as</source>
        <translation>Anzeige als</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>The &amp;operator may change it</source>
        <translation>Der &amp;Bediener darf ihn ändern</translation>
    </message>
    <message>
        <source>There is no signal with that name. Create it in the Signals view first.</source>
        <translation>Es gibt kein Signal mit diesem Namen. Zuerst in der Ansicht Signale anlegen.</translation>
    </message>
    <message>
        <source>bar</source>
        <translation>Balken</translation>
    </message>
    <message>
        <source>bit {number} of {of}</source>
        <translation>Bit {number} von {of}</translation>
    </message>
    <message>
        <source>held in the panel</source>
        <translation>im Panel gehalten</translation>
    </message>
    <message>
        <source>hexadecimal</source>
        <translation>hexadezimal</translation>
    </message>
    <message>
        <source>number</source>
        <translation>Zahl</translation>
    </message>
    <message>
        <source>text per value</source>
        <translation>Zustandstext</translation>
    </message>
    <message>
        <source>{width} cells wide</source>
        <translation>{width} Zellen breit</translation>
    </message>
</context>
<context>
    <name>SignalTray</name>
    <message>
        <source>A screen of these…</source>
        <translation>Ein Bild aus diesen…</translation>
    </message>
    <message>
        <source>Add a signal</source>
        <translation>Signal anlegen</translation>
    </message>
    <message>
        <source>Add a signal and define it</source>
        <translation>Signal anlegen und festlegen</translation>
    </message>
    <message>
        <source>Enter places them at the cursor, Ctrl+Enter the value only.</source>
        <translation>Die Eingabetaste platziert sie am Cursor, Strg+Eingabe nur den Wert.</translation>
    </message>
    <message>
        <source>Filter the signals beside the panel</source>
        <translation>Signale neben dem Panel filtern</translation>
    </message>
    <message>
        <source>Find a signal</source>
        <translation>Signal suchen</translation>
    </message>
    <message>
        <source>No signal of this name. + adds it.</source>
        <translation>Kein Signal dieses Namens. + legt es an.</translation>
    </message>
    <message>
        <source>No signals yet. Add one with +, or import a register list.</source>
        <translation>Noch keine Signale. Mit + eines anlegen oder eine Registerliste importieren.</translation>
    </message>
    <message>
        <source>Place at the cursor</source>
        <translation>Am Cursor platzieren</translation>
    </message>
    <message>
        <source>Place the value only</source>
        <translation>Nur den Wert platzieren</translation>
    </message>
    <message>
        <source>Show in the table of signals</source>
        <translation>In der Signaltabelle zeigen</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>Signals to place</source>
        <translation>Signale zum Platzieren</translation>
    </message>
    <message>
        <source>drag onto the panel</source>
        <translation>auf das Panel ziehen</translation>
    </message>
</context>
<context>
    <name>SignalsView</name>
    <message>
        <source>&amp;Number the names…</source>
        <translation>Namen &amp;nummerieren…</translation>
    </message>
    <message>
        <source>A bit needs a register signal; add one first.</source>
        <translation>Ein Bit braucht ein Registersignal; zuerst eines anlegen.</translation>
    </message>
    <message>
        <source>A register needs a device; add one first.</source>
        <translation>Ein Register braucht ein Gerät; zuerst eines anlegen.</translation>
    </message>
    <message>
        <source>Add signal</source>
        <translation>Signal anlegen</translation>
    </message>
    <message>
        <source>Change signals</source>
        <translation>Signale ändern</translation>
    </message>
    <message>
        <source>Copy by an &amp;offset…</source>
        <translation>Mit &amp;Versatz kopieren…</translation>
    </message>
    <message>
        <source>Copy signals by an offset</source>
        <translation>Signale mit Versatz kopieren</translation>
    </message>
    <message>
        <source>Delete signal</source>
        <translation>Signal löschen</translation>
    </message>
    <message>
        <source>Delete signals</source>
        <translation>Signale löschen</translation>
    </message>
    <message>
        <source>Delete the others ({count})</source>
        <translation>Die übrigen löschen ({count})</translation>
    </message>
    <message>
        <source>Duplicate signal</source>
        <translation>Signal duplizieren</translation>
    </message>
    <message>
        <source>E&amp;xport…</source>
        <translation>E&amp;xportieren…</translation>
    </message>
    <message>
        <source>F2 edits · Ctrl+Enter into all selected rows</source>
        <translation>F2 ändert · Strg+Eingabe in alle ausgewählten Zeilen</translation>
    </message>
    <message>
        <source>Held in the panel</source>
        <translation>Im Panel gehalten</translation>
    </message>
    <message>
        <source>Import signals from a register list (Ctrl+I)</source>
        <translation>Signale aus einer Registerliste importieren (Strg+I)</translation>
    </message>
    <message>
        <source>Import…</source>
        <translation>Importieren…</translation>
    </message>
    <message>
        <source>Lines and devices</source>
        <translation>Leitungen und Geräte</translation>
    </message>
    <message>
        <source>Move signal</source>
        <translation>Signal verschieben</translation>
    </message>
    <message>
        <source>Move signals</source>
        <translation>Signale verschieben</translation>
    </message>
    <message>
        <source>No signals yet. Insert adds one, Ctrl+V pastes rows from a spreadsheet, Import reads a register list.</source>
        <translation>Noch keine Signale. Einfg legt eines an, Strg+V fügt Zeilen aus einer Tabellenkalkulation ein, Importieren liest eine Registerliste.</translation>
    </message>
    <message>
        <source>Not used</source>
        <translation>Unbenutzt</translation>
    </message>
    <message>
        <source>Number signals</source>
        <translation>Signale nummerieren</translation>
    </message>
    <message>
        <source>One bit of another signal</source>
        <translation>Ein Bit eines anderen Signals</translation>
    </message>
    <message>
        <source>Paste signals</source>
        <translation>Signale einfügen</translation>
    </message>
    <message>
        <source>Read from a device</source>
        <translation>Von einem Gerät gelesen</translation>
    </message>
    <message>
        <source>Reorder signals</source>
        <translation>Signale umordnen</translation>
    </message>
    <message>
        <source>Select the signals to copy first.</source>
        <translation>Zuerst die zu kopierenden Signale auswählen.</translation>
    </message>
    <message>
        <source>Select the signals to number first.</source>
        <translation>Zuerst die zu nummerierenden Signale auswählen.</translation>
    </message>
    <message>
        <source>Signals</source>
        <translation>Signale</translation>
    </message>
    <message>
        <source>The signals are in file order already. Sort them first.</source>
        <translation>Die Signale stehen bereits in Dateireihenfolge. Zuerst sortieren.</translation>
    </message>
    <message>
        <source>With findings</source>
        <translation>Mit Prüfergebnissen</translation>
    </message>
    <message>
        <source>Written</source>
        <translation>Geschrieben</translation>
    </message>
</context>
<context>
    <name>SimulatedSwitches</name>
    <message>
        <source>&amp;Inputs and line…</source>
        <translation>&amp;Eingänge und Leitung…</translation>
    </message>
    <message>
        <source>&amp;Silent</source>
        <translation>&amp;Stumm</translation>
    </message>
    <message>
        <source>As if unplugged from the line: receives nothing and answers nothing.</source>
        <translation>Wie von der Leitung getrennt: empfängt nichts und antwortet nicht.</translation>
    </message>
    <message>
        <source>Shaft &amp;blocked</source>
        <translation>Welle &amp;blockiert</translation>
    </message>
    <message>
        <source>Something holds the shaft fast: a running motor trips, one that starts stays at the torque limit.</source>
        <translation>Etwas hält die Welle fest: Ein laufender Motor geht auf Störung, ein anlaufender bleibt an der Drehmomentgrenze.</translation>
    </message>
    <message>
        <source>Supply &amp;low</source>
        <translation>&amp;Unterspannung</translation>
    </message>
    <message>
        <source>The supply sags to {share} %: the drive trips on undervoltage.</source>
        <translation>Die Netzspannung sinkt auf {share} %: Der Umrichter löst mit Unterspannung aus.</translation>
    </message>
</context>
<context>
    <name>SnapshotsDialog</name>
    <message>
        <source>&amp;Compare with a file…</source>
        <translation>Mit einer &amp;Datei vergleichen…</translation>
    </message>
    <message>
        <source>&amp;Export as CSV…</source>
        <translation>Als CSV &amp;exportieren…</translation>
    </message>
    <message>
        <source>&amp;Open a snapshot…</source>
        <translation>Registerabbild ö&amp;ffnen…</translation>
    </message>
    <message>
        <source>&amp;Ranges</source>
        <translation>&amp;Bereiche</translation>
    </message>
    <message>
        <source>&amp;Stop</source>
        <translation>&amp;Anhalten</translation>
    </message>
    <message>
        <source>&amp;Take a snapshot…</source>
        <translation>Registerabbild &amp;sichern…</translation>
    </message>
    <message>
        <source>&amp;Write back ticked values…</source>
        <translation>Angehakte &amp;Werte zurückschreiben…</translation>
    </message>
    <message>
        <source>Compare with the device &amp;now</source>
        <translation>Mit dem Gerät &amp;jetzt vergleichen</translation>
    </message>
    <message>
        <source>Compare with the device now before writing values back.</source>
        <translation>Vor dem Zurückschreiben mit dem Gerät jetzt vergleichen.</translation>
    </message>
    <message>
        <source>De&amp;vice</source>
        <translation>&amp;Gerät</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Differences: {count} of {all}.</source>
        <translation>Unterschiede: {count} von {all}.</translation>
    </message>
    <message>
        <source>Export as CSV</source>
        <translation>Als CSV exportieren</translation>
    </message>
    <message>
        <source>Nothing is connected. Connect first.</source>
        <translation>Keine Verbindung. Zuerst verbinden.</translation>
    </message>
    <message>
        <source>Nothing is ticked.</source>
        <translation>Nichts ist angehakt.</translation>
    </message>
    <message>
        <source>Only &amp;differences</source>
        <translation>Nur &amp;Unterschiede</translation>
    </message>
    <message>
        <source>Open a snapshot</source>
        <translation>Registerabbild öffnen</translation>
    </message>
    <message>
        <source>Re&amp;mark</source>
        <translation>Bemer&amp;kung</translation>
    </message>
    <message>
        <source>Register ranges besides the signals</source>
        <translation>Registerbereiche neben den Signalen</translation>
    </message>
    <message>
        <source>Register snapshots (*.toml)</source>
        <translation>Registerabbilder (*.toml)</translation>
    </message>
    <message>
        <source>Registers as found and as left</source>
        <translation>Register vorher / nachher</translation>
    </message>
    <message>
        <source>Remark saved in the file</source>
        <translation>Bemerkung, die in der Datei steht</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>Save the snapshot as</source>
        <translation>Registerabbild speichern unter</translation>
    </message>
    <message>
        <source>Stopped. Nothing was saved.</source>
        <translation>Angehalten. Nichts wurde gespeichert.</translation>
    </message>
    <message>
        <source>Stopped. Values already written remain written.</source>
        <translation>Angehalten. Bereits geschriebene Werte bleiben geschrieben.</translation>
    </message>
    <message>
        <source>Take a snapshot before you change anything. Open it later to compare it with the device and to write back single values.</source>
        <translation>Vor jeder Änderung ein Registerabbild sichern. Später lässt es sich öffnen und mit dem Gerät vergleichen; einzelne Werte lassen sich zurückschreiben.</translation>
    </message>
    <message>
        <source>Take or open a snapshot first.</source>
        <translation>Zuerst ein Registerabbild sichern oder öffnen.</translation>
    </message>
    <message>
        <source>Text (*.csv)</source>
        <translation>Text (*.csv)</translation>
    </message>
    <message>
        <source>There is nothing to export yet.</source>
        <translation>Es gibt noch nichts zu exportieren.</translation>
    </message>
    <message>
        <source>These are two different devices.</source>
        <translation>Das sind zwei verschiedene Geräte.</translation>
    </message>
    <message>
        <source>This device is not connected. Connect first.</source>
        <translation>Dieses Gerät ist nicht verbunden. Zuerst verbinden.</translation>
    </message>
    <message>
        <source>Writing is not armed. Arm it first.</source>
        <translation>Schreiben ist gesperrt. Zuerst freigeben.</translation>
    </message>
    <message>
        <source>Written: {good}. Not written: {bad}.</source>
        <translation>Geschrieben: {good}. Nicht geschrieben: {bad}.</translation>
    </message>
    <message>
        <source>e.g. holding:0-99 coil:0-15; empty: the signals only</source>
        <translation>z. B. holding:0-99 coil:0-15; leer: nur die Signale</translation>
    </message>
    <message>
        <source>measured</source>
        <translation>gemessen</translation>
    </message>
    <message>
        <source>saved with the next snapshot, e.g. before motor replacement</source>
        <translation>wird mit dem nächsten Registerabbild gespeichert, z. B. vor dem Motortausch</translation>
    </message>
    <message>
        <source>{file}: device {follower}, unit address {unit}, {taken}. Registers: {count}. Not readable: {refused}.</source>
        <translation>{file}: Gerät {follower}, Geräteadresse {unit}, {taken}. Register: {count}. Nicht lesbar: {refused}.</translation>
    </message>
</context>
<context>
    <name>SpokenNews</name>
    <message>
        <source>Alarm: {words}</source>
        <translation>Alarm: {words}</translation>
    </message>
    <message>
        <source>Change {signal}: {value}</source>
        <translation>{signal} ändern: {value}</translation>
    </message>
    <message>
        <source>Change {signal}: {value}; from {low} to {high}</source>
        <translation>{signal} ändern: {value}; von {low} bis {high}</translation>
    </message>
    <message>
        <source>Change {signal}: {value}; one of {choices}</source>
        <translation>{signal} ändern: {value}; möglich sind {choices}</translation>
    </message>
    <message>
        <source>Choose a field: {signal}</source>
        <translation>Feld wählen: {signal}</translation>
    </message>
    <message>
        <source>End of entry</source>
        <translation>Eingabe beendet</translation>
    </message>
    <message>
        <source>Not acknowledged: “{screen}” is still on</source>
        <translation>Nicht quittiert: „{screen}“ steht weiter an</translation>
    </message>
    <message>
        <source>{signal}: {value} written</source>
        <translation>{signal}: {value} geschrieben</translation>
    </message>
</context>
<context>
    <name>Spreadsheet</name>
    <message>
        <source>Comma-separated values (*.csv)</source>
        <translation>Kommagetrennte Werte (*.csv)</translation>
    </message>
    <message>
        <source>Semicolons and decimal comma (*.csv)</source>
        <translation>Semikolons und Dezimalkomma (*.csv)</translation>
    </message>
</context>
<context>
    <name>StartPage</name>
    <message>
        <source>A few questions, all answered already: screens, keys and signals to start and stop it are made.</source>
        <translation>Wenige Fragen, alle schon beantwortet: Bilder, Tasten und Signale zum Starten und Stoppen werden angelegt.</translation>
    </message>
    <message>
        <source>A finished panel, live against a simulated drive. Press its keys, then look how it is made.</source>
        <translation>Ein fertiges Panel an einem simulierten Antrieb. Tasten drücken, dann ansehen, wie es gemacht ist.</translation>
    </message>
    <message>
        <source>Bench</source>
        <translation>Prüfplatz</translation>
    </message>
    <message>
        <source>Design</source>
        <translation>Entwurf</translation>
    </message>
    <message>
        <source>Find out an unknown device</source>
        <translation>Unbekanntes Gerät ermitteln</translation>
    </message>
    <message>
        <source>From the desk to the machine</source>
        <translation>Vom Schreibtisch zur Maschine</translation>
    </message>
    <message>
        <source>Its speed, unit address, registers and scales are searched for, only by reading.</source>
        <translation>Geschwindigkeit, Geräteadresse, Register und Skalierungen werden gesucht, nur durch Lesen.</translation>
    </message>
    <message>
        <source>New panel with a drive</source>
        <translation>Neues Panel mit Antrieb</translation>
    </message>
    <message>
        <source>Nothing here touches a machine: a real line is written to only after you connect it and arm it.</source>
        <translation>Nichts hier berührt eine Maschine: Auf eine echte Leitung wird erst nach Verbinden und Freigeben geschrieben.</translation>
    </message>
    <message>
        <source>Open a project or recording</source>
        <translation>Projekt oder Aufzeichnung öffnen</translation>
    </message>
    <message>
        <source>Or drop a file anywhere into this window.</source>
        <translation>Oder eine Datei irgendwo in dieses Fenster ziehen.</translation>
    </message>
    <message>
        <source>Projects that you open or save are listed here.</source>
        <translation>Geöffnete und gespeicherte Projekte stehen hier.</translation>
    </message>
    <message>
        <source>Recent</source>
        <translation>Zuletzt verwendet</translation>
    </message>
    <message>
        <source>See a demo run</source>
        <translation>Demo ansehen</translation>
    </message>
    <message>
        <source>Start page</source>
        <translation>Startseite</translation>
    </message>
    <message>
        <source>Start-up</source>
        <translation>Inbetriebnahme</translation>
    </message>
    <message>
        <source>What would you like to do?</source>
        <translation>Womit soll es losgehen?</translation>
    </message>
    <message>
        <source>operate it, simulated or real</source>
        <translation>bedienen, simuliert oder echt</translation>
    </message>
    <message>
        <source>screens, keys, signals</source>
        <translation>Bilder, Tasten, Signale</translation>
    </message>
    <message>
        <source>watch, record, measure</source>
        <translation>beobachten, aufzeichnen, messen</translation>
    </message>
</context>
<context>
    <name>StartUpWorkspace</name>
    <message>
        <source>&amp;Open a recording…</source>
        <translation>Aufzeichnung &amp;öffnen…</translation>
    </message>
    <message>
        <source>&amp;Trend</source>
        <translation>&amp;Trend</translation>
    </message>
    <message>
        <source>Curves</source>
        <translation>Kurven</translation>
    </message>
    <message>
        <source>E&amp;vents</source>
        <translation>&amp;Ereignisse</translation>
    </message>
    <message>
        <source>Events</source>
        <translation>Ereignisse</translation>
    </message>
    <message>
        <source>More about recordings</source>
        <translation>Mehr zu Aufzeichnungen</translation>
    </message>
    <message>
        <source>Open a recording</source>
        <translation>Aufzeichnung öffnen</translation>
    </message>
    <message>
        <source>Open recording…</source>
        <translation>Aufzeichnung öffnen…</translation>
    </message>
    <message>
        <source>Play the la&amp;st recording</source>
        <translation>Letzte Aufzeichnung absp&amp;ielen</translation>
    </message>
    <message>
        <source>Record</source>
        <translation>Aufzeichnen</translation>
    </message>
    <message>
        <source>Recording: nothing here is live</source>
        <translation>Aufzeichnung: Nichts hier ist live</translation>
    </message>
    <message>
        <source>Recordings (*.fanrec)</source>
        <translation>Aufzeichnungen (*.fanrec)</translation>
    </message>
    <message>
        <source>Registers as &amp;found and as left…</source>
        <translation>Register &amp;vorher / nachher…</translation>
    </message>
    <message>
        <source>Response</source>
        <translation>Messung</translation>
    </message>
    <message>
        <source>Stop recording</source>
        <translation>Aufzeichnung beenden</translation>
    </message>
    <message>
        <source>The recording was closed: writing is armed, and the panel here operates the machine.</source>
        <translation>Die Aufzeichnung wurde geschlossen: Schreiben ist freigegeben, und das Panel hier bedient die Maschine.</translation>
    </message>
    <message>
        <source>This recording was made with another version of the project than the one connected.</source>
        <translation>Diese Aufzeichnung stammt von einem anderen Stand des Projekts als dem verbundenen.</translation>
    </message>
    <message>
        <source>Writing is armed: the panel here operates the machine. Disarm first, then open the recording.</source>
        <translation>Schreiben ist freigegeben: Das Panel hier bedient die Maschine. Zuerst Schreiben sperren, dann die Aufzeichnung öffnen.</translation>
    </message>
    <message>
        <source>Writing was disarmed automatically, but keys that stop still write: the panel here operates the machine. Disarm first, then open the recording.</source>
        <translation>Schreiben wurde automatisch gesperrt, aber Tasten, die stoppen, schreiben weiterhin: Das Panel hier bedient die Maschine. Zuerst Schreiben ganz sperren, dann die Aufzeichnung öffnen.</translation>
    </message>
    <message>
        <source>nothing was recorded yet</source>
        <translation>noch nichts aufgezeichnet</translation>
    </message>
    <message>
        <source>{name} is damaged; the readable part is shown: {reason}</source>
        <translation>{name} ist beschädigt; angezeigt wird der lesbare Teil: {reason}</translation>
    </message>
</context>
<context>
    <name>Starting</name>
    <message>
        <source>&amp;Arm and run…</source>
        <translation>Schreiben &amp;freigeben und starten …</translation>
    </message>
    <message>
        <source>&amp;Clean up</source>
        <translation>&amp;Aufräumen</translation>
    </message>
    <message>
        <source>&amp;Disconnect and go on</source>
        <translation>&amp;Trennen und weiter</translation>
    </message>
    <message>
        <source>A trial runs on the real line. Stop it first, then connect.</source>
        <translation>Auf der echten Leitung läuft eine Abnahme. Erst diese beenden, dann verbinden.</translation>
    </message>
    <message>
        <source>An earlier run was not ended</source>
        <translation>Ein früherer Lauf wurde nicht beendet</translation>
    </message>
    <message>
        <source>Armed, the trial presses keys that write to the real line; {count} of its cases can move the machine, and each of these asks before it begins. Without writing it only reads: what needs a write does not pass.</source>
        <translation>Mit Freigabe drückt die Abnahme Tasten, die auf die echte Leitung schreiben; {count} der Fälle können die Maschine bewegen, und jeder davon fragt vor dem Beginn. Ohne Schreiben wird nur gelesen: Was ein Schreiben braucht, wird nicht bestanden.</translation>
    </message>
    <message>
        <source>Clean up after it first?</source>
        <translation>Zuerst danach aufräumen?</translation>
    </message>
    <message>
        <source>Disconnect it and run the trial?</source>
        <translation>Trennen und die Abnahme starten?</translation>
    </message>
    <message>
        <source>None of these cases is run against what is chosen. Choose another target above.</source>
        <translation>Keiner dieser Fälle ist für das gewählte Ziel gedacht. Oben ein anderes Ziel wählen.</translation>
    </message>
    <message>
        <source>Run the trial on the real line?</source>
        <translation>Abnahme auf der echten Leitung starten?</translation>
    </message>
    <message>
        <source>Run without &amp;writing</source>
        <translation>Ohne &amp;Schreiben starten</translation>
    </message>
    <message>
        <source>The panel on the Bench and the trial cannot both operate it.</source>
        <translation>Das Panel auf dem Prüfplatz und die Abnahme können es nicht beide bedienen.</translation>
    </message>
    <message>
        <source>The program ended while {file} was made, so a case at the device may not have been cleaned up. Its record so far is kept as an unfinished one. Leave it alone if that run goes on in another window.</source>
        <translation>Das Programm endete, während {file} entstand; am Gerät ist nach einem Fall vielleicht nicht aufgeräumt worden. Das Protokoll bis dahin bleibt als nicht abgeschlossenes erhalten. Nichts tun, wenn dieser Lauf in einem anderen Fenster noch läuft.</translation>
    </message>
    <message>
        <source>The project has no line. Add one in Design.</source>
        <translation>Das Projekt hat keine Leitung. Im Entwurf eine anlegen.</translation>
    </message>
    <message>
        <source>This project is connected</source>
        <translation>Dieses Projekt ist verbunden</translation>
    </message>
    <message>
        <source>Trial on the real line</source>
        <translation>Abnahme auf der echten Leitung</translation>
    </message>
</context>
<context>
    <name>StepList</name>
    <message>
        <source>Steps</source>
        <translation>Schritte</translation>
    </message>
    <message>
        <source>{step}, done</source>
        <translation>{step}, erledigt</translation>
    </message>
    <message>
        <source>{step}, open</source>
        <translation>{step}, offen</translation>
    </message>
</context>
<context>
    <name>StepPage</name>
    <message>
        <source>At</source>
        <translation>Zeitpunkt</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Erwartet</translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>Machine</source>
        <translation>Maschine</translation>
    </message>
    <message>
        <source>Not put back</source>
        <translation>Nicht zurückgestellt</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notizen</translation>
    </message>
    <message>
        <source>Put back</source>
        <translation>Zurückgestellt</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>Said by</source>
        <translation>Angabe von</translation>
    </message>
    <message>
        <source>Seen</source>
        <translation>Gesehen</translation>
    </message>
    <message>
        <source>Steps</source>
        <translation>Schritte</translation>
    </message>
    <message>
        <source>Took</source>
        <translation>Dauer</translation>
    </message>
    <message>
        <source>can move the machine</source>
        <translation>kann die Maschine bewegen</translation>
    </message>
    <message>
        <source>moves nothing</source>
        <translation>bewegt nichts</translation>
    </message>
    <message>
        <source>raw {raw}</source>
        <translation>roh {raw}</translation>
    </message>
</context>
<context>
    <name>StepsDialog</name>
    <message>
        <source>Click a step to go back to it. What is below it is kept until you change something else.</source>
        <translation>Ein Klick führt zu diesem Schritt zurück. Was darunter steht, bleibt, bis Sie etwas anderes ändern.</translation>
    </message>
    <message>
        <source>Steps</source>
        <translation>Schritte</translation>
    </message>
</context>
<context>
    <name>StepsModel</name>
    <message>
        <source>As it was opened</source>
        <translation>Wie geöffnet</translation>
    </message>
    <message>
        <source>{step} – saved</source>
        <translation>{step} – gespeichert</translation>
    </message>
    <message>
        <source>{step}, taken back</source>
        <translation>{step}, zurückgenommen</translation>
    </message>
</context>
<context>
    <name>StepsTable</name>
    <message>
        <source>Cases and steps</source>
        <translation>Fälle und Schritte</translation>
    </message>
    <message>
        <source>asks you</source>
        <translation>Frage offen</translation>
    </message>
    <message>
        <source>does not fit</source>
        <translation>passt nicht</translation>
    </message>
</context>
<context>
    <name>StopAlarm</name>
    <message>
        <source>Confirm: machine checked</source>
        <translation>Bestätigen: Maschine geprüft</translation>
    </message>
</context>
<context>
    <name>TableCommands</name>
    <message>
        <source>&amp;Copy the cells</source>
        <translation>Zellen &amp;kopieren</translation>
    </message>
    <message>
        <source>&amp;Fill down</source>
        <translation>Nach &amp;unten ausfüllen</translation>
    </message>
    <message>
        <source>&amp;Keep this order</source>
        <translation>Diese Reihenfolge &amp;behalten</translation>
    </message>
    <message>
        <source>&amp;Paste over the cells</source>
        <translation>Über die Zellen &amp;einfügen</translation>
    </message>
    <message>
        <source>&amp;Sort by this column</source>
        <translation>Nach dieser Spalte &amp;sortieren</translation>
    </message>
    <message>
        <source>&amp;Value looks wrong…</source>
        <translation>Wert sieht f&amp;alsch aus…</translation>
    </message>
    <message>
        <source>Cop&amp;y by an offset…</source>
        <translation>Mit Versa&amp;tz kopieren…</translation>
    </message>
    <message>
        <source>Copy with &amp;headings</source>
        <translation>Mit Überschriften kop&amp;ieren</translation>
    </message>
    <message>
        <source>Fill s&amp;eries</source>
        <translation>Reihe aus&amp;füllen</translation>
    </message>
    <message>
        <source>Filte&amp;r</source>
        <translation>&amp;Liste filtern</translation>
    </message>
    <message>
        <source>Nu&amp;mber the names…</source>
        <translation>&amp;Namen nummerieren…</translation>
    </message>
    <message>
        <source>Paste as &amp;new rows</source>
        <translation>Als neue &amp;Zeilen einfügen</translation>
    </message>
    <message>
        <source>Sca&amp;ling…</source>
        <translation>Skalie&amp;rung…</translation>
    </message>
    <message>
        <source>Sho&amp;w uses</source>
        <translation>Ver&amp;wendungen anzeigen</translation>
    </message>
    <message>
        <source>This works on the tables of signals, lines and devices.</source>
        <translation>Dies gilt für die Tabellen der Signale, Leitungen und Geräte.</translation>
    </message>
</context>
<context>
    <name>TableWork</name>
    <message>
        <source>Names already in use, given a number: {count}.</source>
        <translation>Bereits vergebene Namen, mit Nummer versehen: {count}.</translation>
    </message>
    <message>
        <source>Not accepted: {columns}.</source>
        <translation>Nicht übernommen: {columns}.</translation>
    </message>
    <message>
        <source>Nothing is selected to copy.</source>
        <translation>Nichts zum Kopieren ausgewählt.</translation>
    </message>
    <message>
        <source>Select cells with whole numbers, one under the other; the first one or two begin the series.</source>
        <translation>Zellen mit ganzen Zahlen untereinander auswählen; die ersten ein oder zwei beginnen die Reihe.</translation>
    </message>
    <message>
        <source>Select the cells to fill as well: Shift+Down.</source>
        <translation>Auch die auszufüllenden Zellen auswählen: Umschalt+Ab.</translation>
    </message>
    <message>
        <source>Several rows cannot have the same name. Enter # where the number goes: {name} #</source>
        <translation>Mehrere Zeilen können nicht gleich heißen. # eingeben, wo die Nummer stehen soll: {name} #</translation>
    </message>
    <message>
        <source>There is no text on the clipboard.</source>
        <translation>In der Zwischenablage steht kein Text.</translation>
    </message>
</context>
<context>
    <name>TargetChoices</name>
    <message>
        <source>&amp;Device of the signals</source>
        <translation>&amp;Gerät der Signale</translation>
    </message>
    <message>
        <source>&amp;Line of new devices</source>
        <translation>&amp;Leitung neuer Geräte</translation>
    </message>
    <message>
        <source>&amp;Name of the new device</source>
        <translation>&amp;Name des neuen Geräts</translation>
    </message>
    <message>
        <source>Also of devices that the list names and the project does not have.</source>
        <translation>Auch von Geräten, die die Liste nennt und das Projekt nicht hat.</translation>
    </message>
    <message>
        <source>By their name, or by device, table, register and bit. Updated ones keep their name and what the list has no column for; names that are taken get a number.</source>
        <translation>Am Namen erkannt oder an Gerät, Tabelle, Register und Bit. Aktualisierte behalten ihren Namen und alles, wofür die Liste keine Spalte hat; vergebene Namen bekommen eine Nummer.</translation>
    </message>
    <message>
        <source>For rows that do not name a device.</source>
        <translation>Für Zeilen, die kein Gerät nennen.</translation>
    </message>
    <message>
        <source>New device</source>
        <translation>Neues Gerät</translation>
    </message>
    <message>
        <source>New line, Modbus TCP</source>
        <translation>Neue Leitung, Modbus TCP</translation>
    </message>
    <message>
        <source>New line, serial port</source>
        <translation>Neue Leitung, serieller Anschluss</translation>
    </message>
    <message>
        <source>None: skip such rows</source>
        <translation>Keines: solche Zeilen überspringen</translation>
    </message>
    <message>
        <source>Si&amp;gnals that are there already</source>
        <translation>Schon vorhandene Si&amp;gnale</translation>
    </message>
    <message>
        <source>add the rows beside them</source>
        <translation>die Zeilen daneben anlegen</translation>
    </message>
    <message>
        <source>device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>keep them as they are</source>
        <translation>unverändert lassen</translation>
    </message>
    <message>
        <source>line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>update them</source>
        <translation>aktualisieren</translation>
    </message>
</context>
<context>
    <name>Template</name>
    <message>
        <source>main</source>
        <translation>haupt</translation>
    </message>
</context>
<context>
    <name>TesterDialog</name>
    <message>
        <source>&amp;Accept</source>
        <translation>&amp;Übernehmen</translation>
    </message>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>&amp;Place</source>
        <translation>&amp;Ort</translation>
    </message>
    <message>
        <source>Name and place stand in the record of every run and with every answer. They are asked only once.</source>
        <translation>Name und Ort stehen im Protokoll jedes Laufs und bei jeder Antwort. Gefragt wird nur einmal.</translation>
    </message>
    <message>
        <source>Who tests?</source>
        <translation>Wer prüft?</translation>
    </message>
    <message>
        <source>e.g. workshop, or the place of the machine</source>
        <translation>z. B. Werkstatt, oder der Standort der Maschine</translation>
    </message>
</context>
<context>
    <name>TextQuestion</name>
    <message>
        <source>&amp;Accept</source>
        <translation>&amp;Übernehmen</translation>
    </message>
</context>
<context>
    <name>ToHere</name>
    <message>
        <source>Nothing leads here yet. Drag a key of another screen here.</source>
        <translation>Noch führt nichts hierher. Ziehen Sie eine Taste eines anderen Bildes hierher.</translation>
    </message>
    <message>
        <source>To here</source>
        <translation>Hierher</translation>
    </message>
</context>
<context>
    <name>ToolRow</name>
    <message>
        <source>More</source>
        <translation>Mehr</translation>
    </message>
    <message>
        <source>More tools</source>
        <translation>Weitere Werkzeuge</translation>
    </message>
</context>
<context>
    <name>TransactionParts</name>
    <message>
        <source>Bytes</source>
        <translation>Bytes</translation>
    </message>
    <message>
        <source>Bytes of the transaction</source>
        <translation>Bytes der Transaktion</translation>
    </message>
    <message>
        <source>Choose a transaction to see its bytes explained.</source>
        <translation>Eine Transaktion wählen, um ihre Bytes erklärt zu sehen.</translation>
    </message>
    <message>
        <source>Copy this transaction as text</source>
        <translation>Transaktion als Text kopieren</translation>
    </message>
    <message>
        <source>Meaning</source>
        <translation>Bedeutung</translation>
    </message>
    <message>
        <source>Part</source>
        <translation>Teil</translation>
    </message>
    <message>
        <source>Received</source>
        <translation>Empfangen</translation>
    </message>
    <message>
        <source>Received: nothing</source>
        <translation>Empfangen: nichts</translation>
    </message>
    <message>
        <source>Sent</source>
        <translation>Gesendet</translation>
    </message>
    <message>
        <source>Sent: nothing</source>
        <translation>Gesendet: nichts</translation>
    </message>
    <message>
        <source>{way}: {what}, {count} bytes</source>
        <translation>{way}: {what}, {count} Byte</translation>
    </message>
</context>
<context>
    <name>TransactionsModel</name>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Erwartet</translation>
    </message>
    <message>
        <source>Expected time in milliseconds</source>
        <translation>Erwartete Dauer in Millisekunden</translation>
    </message>
    <message>
        <source>Request</source>
        <translation>Anfrage</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Zeit</translation>
    </message>
    <message>
        <source>Time from the request to the complete answer, in milliseconds</source>
        <translation>Zeit von der Anfrage bis zur vollständigen Antwort, in Millisekunden</translation>
    </message>
    <message>
        <source>ms</source>
        <translation>ms</translation>
    </message>
</context>
<context>
    <name>TransactionsTable</name>
    <message>
        <source>Transactions</source>
        <translation>Transaktionen</translation>
    </message>
</context>
<context>
    <name>TrendHead</name>
    <message>
        <source>{seconds} s</source>
        <translation>{seconds} s</translation>
    </message>
</context>
<context>
    <name>TrendLegend</name>
    <message>
        <source>A</source>
        <translation>A</translation>
    </message>
    <message>
        <source>B</source>
        <translation>B</translation>
    </message>
    <message>
        <source>B − A</source>
        <translation>B − A</translation>
    </message>
    <message>
        <source>Curve</source>
        <translation>Kurve</translation>
    </message>
    <message>
        <source>Curves and their values</source>
        <translation>Kurven und ihre Werte</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Jetzt</translation>
    </message>
</context>
<context>
    <name>TrendPlot</name>
    <message>
        <source>Trend</source>
        <translation>Trend</translation>
    </message>
</context>
<context>
    <name>TrendView</name>
    <message>
        <source>&amp;Colour</source>
        <translation>&amp;Farbe</translation>
    </message>
    <message>
        <source>&amp;Cursors A and B</source>
        <translation>&amp;Cursor A und B</translation>
    </message>
    <message>
        <source>&amp;Fit the value axis</source>
        <translation>&amp;Wertachse anpassen</translation>
    </message>
    <message>
        <source>&amp;Follow the newest values</source>
        <translation>Den neuesten Werten &amp;folgen</translation>
    </message>
    <message>
        <source>&amp;Remove the selected curves</source>
        <translation>Ausgewählte Kurven entfer&amp;nen</translation>
    </message>
    <message>
        <source>&amp;Remove {name}</source>
        <translation>{name} entfer&amp;nen</translation>
    </message>
    <message>
        <source>A&amp;dd a curve…</source>
        <translation>Kurve &amp;hinzufügen…</translation>
    </message>
    <message>
        <source>Add curve</source>
        <translation>Kurve hinzufügen</translation>
    </message>
    <message>
        <source>A–B</source>
        <translation>A–B</translation>
    </message>
    <message>
        <source>C&amp;opy the value {value}</source>
        <translation>Wert {value} &amp;kopieren</translation>
    </message>
    <message>
        <source>Copy the values</source>
        <translation>Werte kopieren</translation>
    </message>
    <message>
        <source>Cursor &amp;A</source>
        <translation>Cursor &amp;A</translation>
    </message>
    <message>
        <source>Cursor &amp;B</source>
        <translation>Cursor &amp;B</translation>
    </message>
    <message>
        <source>Drawings (*.svg)</source>
        <translation>Zeichnungen (*.svg)</translation>
    </message>
    <message>
        <source>F&amp;it the value axes</source>
        <translation>Wer&amp;tachsen anpassen</translation>
    </message>
    <message>
        <source>Follow</source>
        <translation>Folgen</translation>
    </message>
    <message>
        <source>Here</source>
        <comment>where the replay stands</comment>
        <translation>Hier</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Jetzt</translation>
    </message>
    <message>
        <source>Pause</source>
        <translation>Anhalten</translation>
    </message>
    <message>
        <source>Pictures (*.png)</source>
        <translation>Bilder (*.png)</translation>
    </message>
    <message>
        <source>Save the &amp;picture…</source>
        <translation>Grafik &amp;speichern…</translation>
    </message>
    <message>
        <source>Save the &amp;values…</source>
        <translation>&amp;Werte speichern…</translation>
    </message>
    <message>
        <source>Save the picture</source>
        <translation>Grafik speichern</translation>
    </message>
    <message>
        <source>Save the values</source>
        <translation>Werte speichern</translation>
    </message>
    <message>
        <source>Show the fu&amp;ll time range</source>
        <translation>Ganzen &amp;Zeitbereich anzeigen</translation>
    </message>
    <message>
        <source>Time range</source>
        <translation>Zeitbereich</translation>
    </message>
    <message>
        <source>Values are kept from the moment the line is connected.</source>
        <translation>Werte werden ab dem Verbinden der Leitung festgehalten.</translation>
    </message>
    <message>
        <source>between the cursors: {time}</source>
        <translation>zwischen den Cursorn: {time}</translation>
    </message>
    <message>
        <source>blue</source>
        <translation>blau</translation>
    </message>
    <message>
        <source>green</source>
        <translation>grün</translation>
    </message>
    <message>
        <source>indigo</source>
        <translation>indigo</translation>
    </message>
    <message>
        <source>live, the newest at the right</source>
        <translation>live, das Neueste rechts</translation>
    </message>
    <message>
        <source>not connected; these are the last values</source>
        <translation>nicht verbunden; das sind die letzten Werte</translation>
    </message>
    <message>
        <source>nothing is live</source>
        <translation>nichts ist verbunden</translation>
    </message>
    <message>
        <source>orange</source>
        <translation>orange</translation>
    </message>
    <message>
        <source>paused to measure; new values are still kept</source>
        <translation>zum Messen angehalten; Werte laufen weiter</translation>
    </message>
    <message>
        <source>paused; new values are still kept</source>
        <translation>angehalten; Werte laufen weiter</translation>
    </message>
    <message>
        <source>red</source>
        <translation>rot</translation>
    </message>
    <message>
        <source>there is no signal</source>
        <translation>es gibt kein Signal</translation>
    </message>
    <message>
        <source>trend</source>
        <translation>Kurven</translation>
    </message>
    <message>
        <source>turquoise</source>
        <translation>türkis</translation>
    </message>
    <message>
        <source>values</source>
        <translation>Werte</translation>
    </message>
    <message>
        <source>violet</source>
        <translation>violett</translation>
    </message>
    <message>
        <source>yellow</source>
        <translation>gelb</translation>
    </message>
    <message>
        <source>{seconds} s are shown</source>
        <translation>{seconds} s sind zu sehen</translation>
    </message>
</context>
<context>
    <name>TrialHead</name>
    <message>
        <source>Places of this trial that name what the project does not have: {count}</source>
        <translation>Stellen dieser Abnahme, die etwas nennen, was das Projekt nicht hat: {count}</translation>
    </message>
    <message>
        <source>Show where</source>
        <translation>Stellen zeigen</translation>
    </message>
    <message>
        <source>The project was changed since this trial was made or looked through.</source>
        <translation>Das Projekt wurde geändert, seit diese Abnahme erstellt oder durchgesehen wurde.</translation>
    </message>
    <message>
        <source>{cases} cases, {steps} steps</source>
        <translation>{cases} Fälle, {steps} Schritte</translation>
    </message>
    <message>
        <source>{cases} cases, {steps} steps · about {minutes} min</source>
        <translation>{cases} Fälle, {steps} Schritte · etwa {minutes} min</translation>
    </message>
    <message>
        <source>{done} of {total}</source>
        <translation>{done} von {total}</translation>
    </message>
    <message>
        <source>{minutes} min left</source>
        <translation>noch {minutes} min</translation>
    </message>
    <message>
        <source>{seconds} s left</source>
        <translation>noch {seconds} s</translation>
    </message>
</context>
<context>
    <name>TrialModel</name>
    <message>
        <source>Afterwards: {words}</source>
        <translation>Danach: {words}</translation>
    </message>
    <message>
        <source>Before: {words}</source>
        <translation>Vorher: {words}</translation>
    </message>
    <message>
        <source>Case {name}, closed</source>
        <translation>Fall {name}, zugeklappt</translation>
    </message>
    <message>
        <source>Case {name}, open</source>
        <translation>Fall {name}, aufgeklappt</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Erwartet</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>Nr.</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>Seen</source>
        <translation>Gesehen</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Schritt</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Zeit</translation>
    </message>
    <message>
        <source>asks you</source>
        <translation>Frage offen</translation>
    </message>
    <message>
        <source>at the device only</source>
        <translation>nur am Gerät</translation>
    </message>
    <message>
        <source>blocked</source>
        <translation>blockiert</translation>
    </message>
    <message>
        <source>does not fit</source>
        <translation>passt nicht</translation>
    </message>
    <message>
        <source>failed</source>
        <translation>nicht bestanden</translation>
    </message>
    <message>
        <source>not tested</source>
        <translation>nicht geprüft</translation>
    </message>
    <message>
        <source>passed</source>
        <translation>bestanden</translation>
    </message>
    <message>
        <source>running</source>
        <translation>läuft</translation>
    </message>
    <message>
        <source>simulated only</source>
        <translation>nur simuliert</translation>
    </message>
    <message>
        <source>waiting for an answer</source>
        <translation>wartet auf eine Antwort</translation>
    </message>
</context>
<context>
    <name>TrialWorkspace</name>
    <message>
        <source>&amp;Answer</source>
        <translation>Ant&amp;wort</translation>
    </message>
    <message>
        <source>&amp;Follow what runs</source>
        <translation>Dem Lauf &amp;folgen</translation>
    </message>
    <message>
        <source>&amp;No, or not possible</source>
        <translation>&amp;Nein, oder nicht möglich</translation>
    </message>
    <message>
        <source>&amp;Open a trial…</source>
        <translation>Abnahme &amp;öffnen …</translation>
    </message>
    <message>
        <source>&amp;Run the trial</source>
        <translation>Abnahme &amp;starten</translation>
    </message>
    <message>
        <source>&amp;Stop the trial</source>
        <translation>Abnahme &amp;abbrechen</translation>
    </message>
    <message>
        <source>&amp;Who tests…</source>
        <translation>Wer &amp;prüft …</translation>
    </message>
    <message>
        <source>&amp;Yes, or done</source>
        <translation>&amp;Ja, oder erledigt</translation>
    </message>
    <message>
        <source>A trial operates the panel step by step and tells what was seen beside what is expected.</source>
        <translation>Eine Abnahme bedient das Panel Schritt für Schritt und zeigt neben dem Erwarteten, was zu sehen war.</translation>
    </message>
    <message>
        <source>A trial runs</source>
        <translation>Eine Abnahme läuft</translation>
    </message>
    <message>
        <source>A trial was proposed: read through what it expects before it is relied on.</source>
        <translation>Eine Abnahme wurde vorgeschlagen: Durchlesen, was sie erwartet, bevor Verlass darauf ist.</translation>
    </message>
    <message>
        <source>Accepted</source>
        <translation>Akzeptiert</translation>
    </message>
    <message>
        <source>Against</source>
        <translation>An</translation>
    </message>
    <message>
        <source>Cannot &amp;tell</source>
        <translation>&amp;Unklar</translation>
    </message>
    <message>
        <source>Cases</source>
        <translation>Fälle</translation>
    </message>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Follow</source>
        <translation>Folgen</translation>
    </message>
    <message>
        <source>It is a file that is read and written in any text editor.</source>
        <translation>Sie ist eine Datei, die in jedem Texteditor zu lesen und zu schreiben ist.</translation>
    </message>
    <message>
        <source>It is looked for as {name} beside the project.</source>
        <translation>Gesucht wird sie als {name} neben dem Projekt.</translation>
    </message>
    <message>
        <source>Keys are let go and what is to be cleaned up is cleaned up before anything else happens.</source>
        <translation>Bevor etwas anderes geschieht, werden Tasten losgelassen und es wird aufgeräumt.</translation>
    </message>
    <message>
        <source>Last run</source>
        <translation>Letzter Lauf</translation>
    </message>
    <message>
        <source>No trial for this project yet</source>
        <translation>Noch keine Abnahme für dieses Projekt</translation>
    </message>
    <message>
        <source>No trial was made: {why}</source>
        <translation>Es wurde keine Abnahme erstellt: {why}</translation>
    </message>
    <message>
        <source>Not all chosen cases passed</source>
        <translation>Nicht alle gewählten Fälle bestanden</translation>
    </message>
    <message>
        <source>Not passed</source>
        <translation>Nicht bestanden</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notizen</translation>
    </message>
    <message>
        <source>Only what did &amp;not pass</source>
        <translation>&amp;Nur nicht Bestandenes</translation>
    </message>
    <message>
        <source>Open a trial</source>
        <translation>Abnahme öffnen</translation>
    </message>
    <message>
        <source>Open…</source>
        <translation>Öffnen …</translation>
    </message>
    <message>
        <source>Problems of the trial</source>
        <translation>Probleme der Abnahme</translation>
    </message>
    <message>
        <source>Propose a trial from this pro&amp;ject…</source>
        <translation>Abnahme aus dem Projekt &amp;vorschlagen …</translation>
    </message>
    <message>
        <source>Propose one from this project</source>
        <translation>Aus diesem Projekt vorschlagen</translation>
    </message>
    <message>
        <source>Proposing a trial…</source>
        <translation>Abnahme wird vorgeschlagen …</translation>
    </message>
    <message>
        <source>R&amp;ead the file again</source>
        <translation>Datei neu &amp;lesen</translation>
    </message>
    <message>
        <source>Record</source>
        <translation>Protokoll</translation>
    </message>
    <message>
        <source>Run</source>
        <translation>Starten</translation>
    </message>
    <message>
        <source>Run against</source>
        <translation>Abnahme an</translation>
    </message>
    <message>
        <source>Run chosen</source>
        <translation>Gewählte starten</translation>
    </message>
    <message>
        <source>Run the &amp;chosen cases</source>
        <translation>&amp;Gewählte Fälle starten</translation>
    </message>
    <message>
        <source>Save the proposed trial</source>
        <translation>Vorgeschlagene Abnahme speichern</translation>
    </message>
    <message>
        <source>Show all problems ({count})</source>
        <translation>Alle Probleme zeigen ({count})</translation>
    </message>
    <message>
        <source>Signed</source>
        <translation>Signiert</translation>
    </message>
    <message>
        <source>Simulated, at once</source>
        <translation>Simuliert, sofort</translation>
    </message>
    <message>
        <source>Simulated, in real time</source>
        <translation>Simuliert, in Echtzeit</translation>
    </message>
    <message>
        <source>Stage</source>
        <translation>Stufe</translation>
    </message>
    <message>
        <source>Stop</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Stop the trial?</source>
        <translation>Abnahme abbrechen?</translation>
    </message>
    <message>
        <source>Stopping: keys are let go, and what is to be cleaned up still is.</source>
        <translation>Abbruch: Tasten werden losgelassen, und aufgeräumt wird noch.</translation>
    </message>
    <message>
        <source>Tested by</source>
        <translation>Geprüft von</translation>
    </message>
    <message>
        <source>The chosen cases passed</source>
        <translation>Gewählte Fälle bestanden</translation>
    </message>
    <message>
        <source>The chosen cases passed with exceptions</source>
        <translation>Gewählte Fälle mit Ausnahmen bestanden</translation>
    </message>
    <message>
        <source>The trial cannot be read before this is put right.</source>
        <translation>Die Abnahme ist erst lesbar, wenn das behoben ist.</translation>
    </message>
    <message>
        <source>The trial could not be run to its end: {why}</source>
        <translation>Die Abnahme ließ sich nicht bis zum Ende ausführen: {why}</translation>
    </message>
    <message>
        <source>The trial did not pass</source>
        <translation>Abnahme nicht bestanden</translation>
    </message>
    <message>
        <source>The trial is not finished</source>
        <translation>Abnahme nicht abgeschlossen</translation>
    </message>
    <message>
        <source>The trial is still cleaning up. Try again when it has ended.</source>
        <translation>Die Abnahme räumt noch auf. Erneut versuchen, wenn sie beendet ist.</translation>
    </message>
    <message>
        <source>The trial passed</source>
        <translation>Abnahme bestanden</translation>
    </message>
    <message>
        <source>The trial passed with exceptions</source>
        <translation>Abnahme mit Ausnahmen bestanden</translation>
    </message>
    <message>
        <source>The trial runs</source>
        <translation>Die Abnahme läuft</translation>
    </message>
    <message>
        <source>These places of the trial point to nothing in the project. Correct the file, then read it again (Trial &gt; Read the file again).</source>
        <translation>Diese Stellen der Abnahme führen im Projekt ins Leere. Die Datei berichtigen, dann neu lesen (Abnahme &gt; Datei neu lesen).</translation>
    </message>
    <message>
        <source>Took</source>
        <translation>Dauer</translation>
    </message>
    <message>
        <source>Trials (*{ending})</source>
        <translation>Abnahmen (*{ending})</translation>
    </message>
    <message>
        <source>Trials (*{ending});;All files (*)</source>
        <translation>Abnahmen (*{ending});;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>What does not f&amp;it…</source>
        <translation>Was nicht pass&amp;t …</translation>
    </message>
    <message>
        <source>a trial runs</source>
        <translation>eine Abnahme läuft</translation>
    </message>
    <message>
        <source>choose cases first</source>
        <translation>erst Fälle wählen</translation>
    </message>
    <message>
        <source>not saved yet</source>
        <translation>noch nicht gespeichert</translation>
    </message>
    <message>
        <source>nothing is asked</source>
        <translation>es ist keine Frage offen</translation>
    </message>
    <message>
        <source>nothing runs</source>
        <translation>es läuft nichts</translation>
    </message>
    <message>
        <source>the program failed</source>
        <translation>das Programm ist gescheitert</translation>
    </message>
    <message>
        <source>the trial fits the project</source>
        <translation>die Abnahme passt zum Projekt</translation>
    </message>
    <message>
        <source>there is no trial</source>
        <translation>es ist keine Abnahme da</translation>
    </message>
    <message>
        <source>yes</source>
        <translation>ja</translation>
    </message>
    <message>
        <source>{count} of {all} cases, at the device</source>
        <translation>{count} von {all} Fällen, am Gerät</translation>
    </message>
    <message>
        <source>{count} of {all} cases, simulated devices</source>
        <translation>{count} von {all} Fällen, simulierte Geräte</translation>
    </message>
    <message>
        <source>{name} cannot be read</source>
        <translation>{name} ist nicht lesbar</translation>
    </message>
</context>
<context>
    <name>TroubleDialog</name>
    <message>
        <source>Answer delay</source>
        <translation>Antwortverzögerung</translation>
    </message>
    <message>
        <source>Answers preceded by noise</source>
        <translation>Störbytes vor der Antwort</translation>
    </message>
    <message>
        <source>Clear all line faults</source>
        <translation>Alle Leitungsstörungen aufheben</translation>
    </message>
    <message>
        <source>Exception code</source>
        <translation>Exception-Code</translation>
    </message>
    <message>
        <source>Exception responses</source>
        <translation>Exception-Antworten</translation>
    </message>
    <message>
        <source>External fault</source>
        <translation>Externe Störung</translation>
    </message>
    <message>
        <source>Inputs and line of “{name}”</source>
        <translation>Eingänge und Leitung von „{name}“</translation>
    </message>
    <message>
        <source>Inputs of the drive</source>
        <translation>Eingänge des Antriebs</translation>
    </message>
    <message>
        <source>Jitter +/-</source>
        <translation>Streuung +/-</translation>
    </message>
    <message>
        <source>Line faults</source>
        <translation>Leitungsstörungen</translation>
    </message>
    <message>
        <source>Local</source>
        <translation>Lokal</translation>
    </message>
    <message>
        <source>Missing answers</source>
        <translation>Fehlende Antworten</translation>
    </message>
    <message>
        <source>Preset speed</source>
        <translation>Festdrehzahl</translation>
    </message>
    <message>
        <source>Random seed</source>
        <translation>Zufalls-Startwert</translation>
    </message>
    <message>
        <source>Restart (offline for {seconds} s)</source>
        <translation>Neustart ({seconds} s offline)</translation>
    </message>
    <message>
        <source>Safe torque off (STO)</source>
        <translation>Sicher abgeschaltetes Moment (STO)</translation>
    </message>
    <message>
        <source>Supply voltage</source>
        <translation>Versorgungsspannung</translation>
    </message>
    <message>
        <source>The drive is switched to local: it takes no commands from the bus.</source>
        <translation>Der Antrieb steht auf Lokal: Er nimmt vom Bus keine Befehle an.</translation>
    </message>
    <message>
        <source>The external fault input of the drive is active; the drive trips and stays stopped until the fault is reset.</source>
        <translation>Der Eingang für externe Störung ist aktiv; der Antrieb schaltet mit Störung ab und bleibt stehen, bis sie quittiert wird.</translation>
    </message>
    <message>
        <source>The same number gives the same faults in the same order</source>
        <translation>Dieselbe Zahl ergibt dieselben Störungen in derselben Reihenfolge</translation>
    </message>
    <message>
        <source>What somebody at the simulated device could do to it. Everything acts at once.</source>
        <translation>Was jemand am simulierten Gerät tun könnte. Alles wirkt sofort.</translation>
    </message>
    <message>
        <source>Wrong checksums</source>
        <translation>Falsche Prüfsummen</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
</context>
<context>
    <name>TroubleView</name>
    <message>
        <source>What may be wrong with the line</source>
        <translation>Was an der Leitung nicht stimmen kann</translation>
    </message>
    <message>
        <source>{title} ({likely})</source>
        <translation>{title} ({likely})</translation>
    </message>
</context>
<context>
    <name>Tryout</name>
    <message>
        <source>Back to editing (Space)</source>
        <translation>Zurück zum Bearbeiten (Leertaste)</translation>
    </message>
    <message>
        <source>Entered {signal}: {old} → {new}</source>
        <translation>{signal} eingegeben: {old} → {new}</translation>
    </message>
    <message>
        <source>Keys of the panel: {keys}</source>
        <translation>Tasten des Panels: {keys}</translation>
    </message>
    <message>
        <source>Last actions of the panel</source>
        <translation>Letzte Aktionen des Panels</translation>
    </message>
    <message>
        <source>Refused: {reason}</source>
        <translation>Abgelehnt: {reason}</translation>
    </message>
    <message>
        <source>Trying the panel with simulated values of its own: no key here reaches a line or a machine.</source>
        <translation>Panel mit eigenen simulierten Werten ausprobieren: Keine Taste hier erreicht eine Leitung oder eine Maschine.</translation>
    </message>
    <message>
        <source>Went to “{screen}”: {cause}</source>
        <translation>Bildwechsel zu „{screen}“: {cause}</translation>
    </message>
    <message>
        <source>Wrote {value} to {signal}</source>
        <translation>{value} in {signal} geschrieben</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>“{cover}” covers “{screen}” while its condition holds.</source>
        <translation>„{cover}“ liegt über „{screen}“, solange die Bedingung erfüllt ist.</translation>
    </message>
    <message>
        <source>“{screen}” is new: end trying and begin again to see it.</source>
        <translation>„{screen}“ ist neu: Ausprobieren beenden und neu beginnen, um es zu sehen.</translation>
    </message>
</context>
<context>
    <name>Unfinished</name>
    <message>
        <source>the comparison</source>
        <translation>der Vergleich</translation>
    </message>
    <message>
        <source>the key</source>
        <translation>die Taste</translation>
    </message>
    <message>
        <source>the signal</source>
        <translation>das Signal</translation>
    </message>
    <message>
        <source>the signal of the condition</source>
        <translation>das Signal der Bedingung</translation>
    </message>
    <message>
        <source>the target screen</source>
        <translation>das Zielbild</translation>
    </message>
    <message>
        <source>the time without a key</source>
        <translation>die Zeit ohne Taste</translation>
    </message>
    <message>
        <source>the value</source>
        <translation>der Wert</translation>
    </message>
    <message>
        <source>the value to compare with</source>
        <translation>der Vergleichswert</translation>
    </message>
    <message>
        <source>what it does</source>
        <translation>die Wirkung</translation>
    </message>
</context>
<context>
    <name>ValueSetter</name>
    <message>
        <source>Set</source>
        <translation>Setzen</translation>
    </message>
    <message>
        <source>Signal to set</source>
        <translation>Zu setzendes Signal</translation>
    </message>
    <message>
        <source>Value to set</source>
        <translation>Zu setzender Wert</translation>
    </message>
    <message>
        <source>Write</source>
        <translation>Schreiben</translation>
    </message>
    <message>
        <source>“{text}” is not a number</source>
        <translation>„{text}“ ist keine Zahl</translation>
    </message>
</context>
<context>
    <name>WaysModel</name>
    <message>
        <source>Data type</source>
        <translation>Datentyp</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Reihenfolge</translation>
    </message>
    <message>
        <source>Raw</source>
        <translation>Rohwert</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Warum</translation>
    </message>
    <message>
        <source>bytes swapped</source>
        <translation>Bytes vertauscht</translation>
    </message>
    <message>
        <source>now in the project</source>
        <translation>jetzt im Projekt</translation>
    </message>
    <message>
        <source>now in the project: {evidence}</source>
        <translation>jetzt im Projekt: {evidence}</translation>
    </message>
    <message>
        <source>standard</source>
        <translation>Standard</translation>
    </message>
    <message>
        <source>words and bytes swapped</source>
        <translation>Wörter und Bytes vertauscht</translation>
    </message>
    <message>
        <source>words swapped</source>
        <translation>Wörter vertauscht</translation>
    </message>
</context>
<context>
    <name>WhichRegisterPage</name>
    <message>
        <source>&amp;At</source>
        <translation>&amp;Um</translation>
    </message>
    <message>
        <source>&amp;Decimals</source>
        <translation>Nachkomma&amp;stellen</translation>
    </message>
    <message>
        <source>&amp;From</source>
        <translation>&amp;Von</translation>
    </message>
    <message>
        <source>&amp;Keep it all the same</source>
        <translation>Trotzdem &amp;behalten</translation>
    </message>
    <message>
        <source>&amp;Look up</source>
        <translation>Nach&amp;sehen</translation>
    </message>
    <message>
        <source>&amp;Read now</source>
        <translation>Jetzt &amp;lesen</translation>
    </message>
    <message>
        <source>&amp;Unit</source>
        <translation>&amp;Einheit</translation>
    </message>
    <message>
        <source>At</source>
        <translation>Um</translation>
    </message>
    <message>
        <source>By how much the display moves, or may have moved until the registers were read</source>
        <translation>Um wie viel sich die Anzeige bewegt, oder bis zum Lesen der Register bewegt haben kann</translation>
    </message>
    <message>
        <source>Copy</source>
        <translation>Kopieren</translation>
    </message>
    <message>
        <source>Decimals</source>
        <translation>Nachkommastellen</translation>
    </message>
    <message>
        <source>Enter a name first.</source>
        <translation>Zuerst einen Namen eingeben.</translation>
    </message>
    <message>
        <source>Enter what the device&apos;s own display showed, and at which time of day, and press Enter: the registers of that moment are looked up. They are known from {begin} to {end}; the device is not asked again.</source>
        <translation>Eingeben, was die Anzeige des Geräts selbst gezeigt hat und zu welcher Uhrzeit, und die Eingabetaste drücken: Die Register dieses Moments werden nachgesehen. Bekannt sind sie von {begin} bis {end}; das Gerät wird nicht noch einmal gefragt.</translation>
    </message>
    <message>
        <source>Enter what the device&apos;s own display shows, and press Enter: all registers are read at that moment. Then change the value at the device and do it again.</source>
        <translation>Eingeben, was die Anzeige des Geräts selbst zeigt, und die Eingabetaste drücken: In diesem Moment werden alle Register gelesen. Dann den Wert am Gerät ändern und wiederholen.</translation>
    </message>
    <message>
        <source>N&amp;ame</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>Name of the signal</source>
        <translation>Name des Signals</translation>
    </message>
    <message>
        <source>Named so far: {names}</source>
        <translation>Bisher benannt: {names}</translation>
    </message>
    <message>
        <source>No register agrees</source>
        <translation>Kein Register passt</translation>
    </message>
    <message>
        <source>No register is chosen.</source>
        <translation>Kein Register gewählt.</translation>
    </message>
    <message>
        <source>Nothing is known of the registers of that time.</source>
        <translation>Von den Registern zu dieser Uhrzeit ist nichts bekannt.</translation>
    </message>
    <message>
        <source>Re&amp;move reading</source>
        <translation>Ablesung entfe&amp;rnen</translation>
    </message>
    <message>
        <source>Readings</source>
        <translation>Ablesungen</translation>
    </message>
    <message>
        <source>Registers that agree</source>
        <translation>Passende Register</translation>
    </message>
    <message>
        <source>Smallest st&amp;ep</source>
        <translation>Kleinster S&amp;chritt</translation>
    </message>
    <message>
        <source>Smallest step</source>
        <translation>Kleinster Schritt</translation>
    </message>
    <message>
        <source>The display &amp;shows</source>
        <translation>Die &amp;Anzeige zeigt</translation>
    </message>
    <message>
        <source>The display shows</source>
        <translation>Die Anzeige zeigt</translation>
    </message>
    <message>
        <source>The display was still moving: wait until it stands, then read again.</source>
        <translation>Die Anzeige hat sich noch bewegt: warten, bis sie steht, dann noch einmal lesen.</translation>
    </message>
    <message>
        <source>The reading counts although the display was moving.</source>
        <translation>Die Ablesung zählt, obwohl sich die Anzeige bewegt hat.</translation>
    </message>
    <message>
        <source>The registers are being read.</source>
        <translation>Die Register werden gerade gelesen.</translation>
    </message>
    <message>
        <source>The registers that agree with what you enter are listed here, the likeliest first.</source>
        <translation>Hier stehen die Register, die zu den Eingaben passen, das wahrscheinlichste zuerst.</translation>
    </message>
    <message>
        <source>Unit</source>
        <translation>Einheit</translation>
    </message>
    <message>
        <source>Use this &amp;one</source>
        <translation>&amp;Dieses verwenden</translation>
    </message>
    <message>
        <source>What the readings tell</source>
        <translation>Was die Ablesungen zeigen</translation>
    </message>
    <message>
        <source>What to do next is said above.</source>
        <translation>Was nun zu tun ist, steht darüber.</translation>
    </message>
    <message>
        <source>Where the registers are from</source>
        <translation>Woher die Register sind</translation>
    </message>
    <message>
        <source>Which register is it?</source>
        <translation>Welches Register ist es?</translation>
    </message>
    <message>
        <source>a recording…</source>
        <translation>einer Aufzeichnung …</translation>
    </message>
    <message>
        <source>e.g. 25.0 Hz</source>
        <translation>z. B. 25,0 Hz</translation>
    </message>
    <message>
        <source>e.g. output frequency</source>
        <translation>z. B. Ausgangsfrequenz</translation>
    </message>
    <message>
        <source>one of its last digit</source>
        <translation>1 der letzten Stelle</translation>
    </message>
    <message>
        <source>the device, now</source>
        <translation>dem Gerät, jetzt</translation>
    </message>
</context>
<context>
    <name>WindowMenus</name>
    <message>
        <source>&amp;About Fanlight</source>
        <translation>&amp;Über Fanlight</translation>
    </message>
    <message>
        <source>&amp;Appearance</source>
        <translation>&amp;Darstellung</translation>
    </message>
    <message>
        <source>&amp;Bench</source>
        <translation>&amp;Prüfplatz</translation>
    </message>
    <message>
        <source>&amp;Cautions</source>
        <translation>&amp;Sicherheitshinweise</translation>
    </message>
    <message>
        <source>&amp;Dark</source>
        <translation>&amp;Dunkel</translation>
    </message>
    <message>
        <source>&amp;Design</source>
        <translation>&amp;Entwurf</translation>
    </message>
    <message>
        <source>&amp;Edit</source>
        <translation>&amp;Bearbeiten</translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation>&amp;Datei</translation>
    </message>
    <message>
        <source>&amp;Find a command…</source>
        <translation>&amp;Befehl suchen…</translation>
    </message>
    <message>
        <source>&amp;Full screen</source>
        <translation>&amp;Vollbild</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>&amp;Keys and shortcuts</source>
        <translation>&amp;Tasten und Kürzel</translation>
    </message>
    <message>
        <source>&amp;Light</source>
        <translation>&amp;Hell</translation>
    </message>
    <message>
        <source>&amp;Line</source>
        <translation>&amp;Leitung</translation>
    </message>
    <message>
        <source>&amp;Line strip</source>
        <translation>&amp;Leitungsstreifen</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>B&amp;eenden</translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation>Wieder&amp;holen</translation>
    </message>
    <message>
        <source>&amp;Redo: {step}</source>
        <translation>Wieder&amp;holen: {step}</translation>
    </message>
    <message>
        <source>&amp;Size</source>
        <translation>&amp;Größe</translation>
    </message>
    <message>
        <source>&amp;Start-up</source>
        <translation>&amp;Inbetriebnahme</translation>
    </message>
    <message>
        <source>&amp;Steps…</source>
        <translation>&amp;Schritte …</translation>
    </message>
    <message>
        <source>&amp;Trial</source>
        <translation>Ab&amp;nahme</translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation>&amp;Rückgängig</translation>
    </message>
    <message>
        <source>&amp;Undo: {step}</source>
        <translation>&amp;Rückgängig: {step}</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>&amp;Ansicht</translation>
    </message>
    <message>
        <source>&amp;Workspace</source>
        <translation>A&amp;rbeitsbereich</translation>
    </message>
    <message>
        <source>As the &amp;system</source>
        <translation>Wie das &amp;System</translation>
    </message>
    <message>
        <source>Fi&amp;rst steps</source>
        <translation>E&amp;rste Schritte</translation>
    </message>
    <message>
        <source>In its &amp;own window</source>
        <translation>In &amp;eigenem Fenster</translation>
    </message>
    <message>
        <source>Lan&amp;guage</source>
        <translation>S&amp;prache</translation>
    </message>
    <message>
        <source>Line &amp;view</source>
        <translation>Leitungs&amp;ansicht</translation>
    </message>
    <message>
        <source>Panel cells &amp;blink</source>
        <translation>&amp;Blinkende Zellen des Panels</translation>
    </message>
    <message>
        <source>no step available</source>
        <translation>kein Schritt vorhanden</translation>
    </message>
    <message>
        <source>{percent} %</source>
        <translation>{percent} %</translation>
    </message>
</context>
<context>
    <name>WindowNews</name>
    <message>
        <source>No confirmation that these signals were stopped or switched off: {signals}. They may still be on. Check the machine before anyone approaches it.</source>
        <translation>Keine Bestätigung, dass diese Signale gestoppt oder ausgeschaltet wurden: {signals}. Sie sind möglicherweise noch eingeschaltet. Maschine prüfen, bevor sich jemand nähert.</translation>
    </message>
    <message>
        <source>Possibly still on</source>
        <translation>Möglicherweise noch eingeschaltet</translation>
    </message>
    <message>
        <source>{why}. Keys that stop still write; arm again for the others.</source>
        <translation>{why}. Tasten, die stoppen, schreiben weiterhin; für die anderen das Schreiben neu freigeben.</translation>
    </message>
</context>
<context>
    <name>WordEditor</name>
    <message>
        <source>nothing is chosen yet</source>
        <translation>noch nichts gewählt</translation>
    </message>
</context>
<context>
    <name>WorkDialog</name>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
</context>
<context>
    <name>WriteBar</name>
    <message>
        <source>&amp;Write</source>
        <translation>&amp;Schreiben</translation>
    </message>
    <message>
        <source>Arm…</source>
        <translation>Schreiben freigeben…</translation>
    </message>
    <message>
        <source>Cannot be written: {why}</source>
        <translation>Nicht schreibbar: {why}</translation>
    </message>
    <message>
        <source>Choose one of the values first.</source>
        <translation>Zuerst einen der Werte wählen.</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>New value of {signal}</source>
        <translation>Neuer Wert von {signal}</translation>
    </message>
    <message>
        <source>Not written: connect first.</source>
        <translation>Nicht geschrieben: zuerst verbinden.</translation>
    </message>
    <message>
        <source>Not written: writing is not armed. Arm it first.</source>
        <translation>Nicht geschrieben: Schreiben ist gesperrt. Zuerst freigeben.</translation>
    </message>
    <message>
        <source>Not written: {why}</source>
        <translation>Nicht geschrieben: {why}</translation>
    </message>
    <message>
        <source>Writing {value}…</source>
        <translation>{value} wird geschrieben…</translation>
    </message>
    <message>
        <source>Written: {value}. Read back: {kept}.</source>
        <translation>Geschrieben: {value}. Zurückgelesen: {kept}.</translation>
    </message>
    <message>
        <source>Written: {value}; it cannot be read back.</source>
        <translation>Geschrieben: {value}; es lässt sich nicht zurücklesen.</translation>
    </message>
    <message>
        <source>it is stored in the panel and not sent on any line</source>
        <translation>er bleibt im Panel und wird auf keiner Leitung gesendet</translation>
    </message>
    <message>
        <source>now unknown: {why}</source>
        <translation>jetzt unbekannt: {why}</translation>
    </message>
    <message>
        <source>now {value}</source>
        <translation>jetzt {value}</translation>
    </message>
</context>
<context>
    <name>_Asking</name>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>and more: {count}</source>
        <translation>und weitere: {count}</translation>
    </message>
</context>
<context>
    <name>_Head</name>
    <message>
        <source>closed</source>
        <translation>geschlossen</translation>
    </message>
    <message>
        <source>open</source>
        <translation>offen</translation>
    </message>
</context>
<context>
    <name>_LineWindow</name>
    <message>
        <source>Line view</source>
        <translation>Leitungsansicht</translation>
    </message>
</context>
<context>
    <name>_SaidList</name>
    <message>
        <source>Nothing has been said yet</source>
        <translation>Noch keine Meldung</translation>
    </message>
    <message>
        <source>What was said last</source>
        <translation>Zuletzt gemeldet</translation>
    </message>
</context>
<context>
    <name>_Targets</name>
    <message>
        <source>Command</source>
        <translation>Befehl</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Wo</translation>
    </message>
    <message>
        <source>{place} (not now)</source>
        <translation>{place} (jetzt nicht)</translation>
    </message>
</context>
<context>
    <name>attributes</name>
    <message>
        <source>(as set for the device)</source>
        <translation>(wie beim Gerät)</translation>
    </message>
    <message>
        <source>(no role)</source>
        <translation>(keine Rolle)</translation>
    </message>
    <message>
        <source>A description or remarks</source>
        <translation>Beschreibung, Bemerkungen</translation>
    </message>
    <message>
        <source>A line for each other language of the panel, such as Deutsch: 0=steht; 1=läuft</source>
        <translation>Eine Zeile je weiterer Sprache des Panels, etwa Deutsch: 0=steht; 1=läuft</translation>
    </message>
    <message>
        <source>A number such as 310, 40001, 0x136, 40001-40002 or 40001.3 for a bit</source>
        <translation>Eine Nummer wie 310, 40001, 0x136, 40001-40002 oder 40001.3 für ein Bit</translation>
    </message>
    <message>
        <source>A raw number, the first of two points of a straight line</source>
        <translation>Ein Rohwert, der erste von zwei Punkten einer Geraden</translation>
    </message>
    <message>
        <source>A raw number, the second of two points of a straight line</source>
        <translation>Ein Rohwert, der zweite von zwei Punkten einer Geraden</translation>
    </message>
    <message>
        <source>A text per value, for example 0 = stopped; 1 = running. otherwise = unknown applies to all other values</source>
        <translation>Ein Text je Wert, zum Beispiel 0 = steht; 1 = läuft. otherwise = unbekannt gilt für alle anderen Werte</translation>
    </message>
    <message>
        <source>Added to the value after the factor, in engineering units</source>
        <translation>Nach dem Faktor zum Wert addiert, in seiner Einheit</translation>
    </message>
    <message>
        <source>Bit</source>
        <translation>Bit</translation>
    </message>
    <message>
        <source>Bit of</source>
        <translation>Bit von</translation>
    </message>
    <message>
        <source>Both limits in one cell, for example 0..50 or -10 to 10</source>
        <translation>Beide Grenzen in einer Zelle, zum Beispiel 0..50 oder -10 bis 10</translation>
    </message>
    <message>
        <source>Change per key press. Left out: one unit of the last decimal</source>
        <translation>Änderung je Tastendruck. Ohne Angabe: eine Einheit der letzten Nachkommastelle</translation>
    </message>
    <message>
        <source>Coil, discrete, holding or input, or the function code that reads it</source>
        <translation>Coil, discrete, holding oder input, oder der Funktionscode zum Lesen</translation>
    </message>
    <message>
        <source>Data type</source>
        <translation>Datentyp</translation>
    </message>
    <message>
        <source>Data type of the value in the registers</source>
        <translation>Datentyp des Werts in den Registern</translation>
    </message>
    <message>
        <source>Dec.</source>
        <translation>Nachk.</translation>
    </message>
    <message>
        <source>Decimals</source>
        <translation>Kommastellen</translation>
    </message>
    <message>
        <source>Decimals shown</source>
        <translation>Angezeigte Nachkommastellen</translation>
    </message>
    <message>
        <source>Decimals shown. Left out: as many as the factor has</source>
        <translation>Angezeigte Nachkommastellen. Ohne Angabe: so viele wie der Faktor</translation>
    </message>
    <message>
        <source>Device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Divisor</source>
        <translation>Divisor</translation>
    </message>
    <message>
        <source>Drive role</source>
        <translation>Rolle im Antrieb</translation>
    </message>
    <message>
        <source>Every ms</source>
        <translation>Alle ms</translation>
    </message>
    <message>
        <source>Exponent of ten</source>
        <translation>Zehnerexponent</translation>
    </message>
    <message>
        <source>Factor</source>
        <translation>Faktor</translation>
    </message>
    <message>
        <source>For devices with a communication time-out: the value is written again at this interval, in ms. 0: on change only</source>
        <translation>Für Geräte mit Kommunikations-Timeout: Der Wert wird in diesem Abstand in ms erneut geschrieben. 0: nur bei Änderung</translation>
    </message>
    <message>
        <source>Held value</source>
        <translation>Panelwert</translation>
    </message>
    <message>
        <source>Hex</source>
        <translation>Hex</translation>
    </message>
    <message>
        <source>Hexadecimal</source>
        <translation>Hexadezimal</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Länge</translation>
    </message>
    <message>
        <source>Limits</source>
        <translation>Grenzen</translation>
    </message>
    <message>
        <source>Limits (one cell)</source>
        <translation>Grenzen (eine Zelle)</translation>
    </message>
    <message>
        <source>Lower limit</source>
        <translation>Untere Grenze</translation>
    </message>
    <message>
        <source>Lowest and highest value that may be entered, for example 0 to 50</source>
        <translation>Kleinster und größter Wert, der eingegeben werden darf, zum Beispiel 0 bis 50</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Name of the device. Left out: the device chosen above</source>
        <translation>Name des Geräts. Ohne Angabe: das oben gewählte Gerät</translation>
    </message>
    <message>
        <source>Name of the signal. Left out: its table and register</source>
        <translation>Name des Signals. Ohne Angabe: Tabelle und Register</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notizen</translation>
    </message>
    <message>
        <source>Number of registers of a value; also &apos;32 bit&apos; or &apos;4 bytes&apos;</source>
        <translation>Anzahl Register eines Wertes; auch „32 bit“ oder „4 bytes“</translation>
    </message>
    <message>
        <source>Number of registers, two characters each</source>
        <translation>Anzahl der Register, je zwei Zeichen</translation>
    </message>
    <message>
        <source>Offset</source>
        <translation>Offset</translation>
    </message>
    <message>
        <source>Order of the words in a value of two or more registers. Left out: as set for the device</source>
        <translation>Reihenfolge der Wörter in einem Wert aus zwei oder mehr Registern. Ohne Angabe: wie beim Gerät eingestellt</translation>
    </message>
    <message>
        <source>Poll interval</source>
        <translation>Abfrageintervall</translation>
    </message>
    <message>
        <source>Poll interval in ms</source>
        <translation>Abfrageintervall in ms</translation>
    </message>
    <message>
        <source>Poll ms</source>
        <translation>Abfrage ms</translation>
    </message>
    <message>
        <source>Raw 1</source>
        <translation>Rohwert 1</translation>
    </message>
    <message>
        <source>Raw 2</source>
        <translation>Rohwert 2</translation>
    </message>
    <message>
        <source>Register</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>Rewrite ms</source>
        <translation>Neu schreiben, ms</translation>
    </message>
    <message>
        <source>Role</source>
        <translation>Rolle</translation>
    </message>
    <message>
        <source>Role (in the simulation)</source>
        <translation>Rolle (in der Simulation)</translation>
    </message>
    <message>
        <source>Role of this signal in the simulated drive. Once any signal has a role, the drive uses the project&apos;s registers instead of its built-in ones</source>
        <translation>Rolle dieses Signals im simulierten Antrieb. Sobald ein Signal eine Rolle hat, verwendet der Antrieb die Register des Projekts statt seiner eingebauten</translation>
    </message>
    <message>
        <source>Scale</source>
        <translation>Skalierung</translation>
    </message>
    <message>
        <source>Shown in hexadecimal</source>
        <translation>Hexadezimal angezeigt</translation>
    </message>
    <message>
        <source>Start value</source>
        <translation>Startwert</translation>
    </message>
    <message>
        <source>Start value in the simulated device</source>
        <translation>Startwert im simulierten Gerät</translation>
    </message>
    <message>
        <source>State texts</source>
        <translation>Zustandstexte</translation>
    </message>
    <message>
        <source>State texts in other languages</source>
        <translation>Zustandstexte in anderen Sprachen</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Schrittweite</translation>
    </message>
    <message>
        <source>Table</source>
        <translation>Tabelle</translation>
    </message>
    <message>
        <source>Texts</source>
        <translation>Texte</translation>
    </message>
    <message>
        <source>Texts in other languages</source>
        <translation>Texte in anderen Sprachen</translation>
    </message>
    <message>
        <source>The engineering unit: Hz, °C, bar</source>
        <translation>Die Einheit des Wertes: Hz, °C, bar</translation>
    </message>
    <message>
        <source>The highest value that can be entered</source>
        <translation>Der größte Wert, der eingegeben werden kann</translation>
    </message>
    <message>
        <source>The lowest value that can be entered</source>
        <translation>Der kleinste Wert, der eingegeben werden kann</translation>
    </message>
    <message>
        <source>The number from the manual of the device</source>
        <translation>Die Nummer aus dem Handbuch des Geräts</translation>
    </message>
    <message>
        <source>The number of the bit, 0 is the least significant</source>
        <translation>Die Nummer des Bits, 0 ist das niederwertigste</translation>
    </message>
    <message>
        <source>The signal that contains this bit</source>
        <translation>Das Signal, das dieses Bit enthält</translation>
    </message>
    <message>
        <source>The texts in the panel&apos;s other languages, as far as they differ</source>
        <translation>Die Texte in den anderen Sprachen des Panels, soweit sie abweichen</translation>
    </message>
    <message>
        <source>The value of the first raw number</source>
        <translation>Der Wert zum ersten Rohwert</translation>
    </message>
    <message>
        <source>The value of the second raw number</source>
        <translation>Der Wert zum zweiten Rohwert</translation>
    </message>
    <message>
        <source>Two points, raw = value, for example 0 to 10000 = 0 to 50; or a factor, for example x 0.1</source>
        <translation>Zwei Punkte, roh = Wert, zum Beispiel 0 bis 10000 = 0 bis 50; oder ein Faktor, zum Beispiel x 0.1</translation>
    </message>
    <message>
        <source>Unit</source>
        <translation>Einheit</translation>
    </message>
    <message>
        <source>Upper limit</source>
        <translation>Obere Grenze</translation>
    </message>
    <message>
        <source>Value 1</source>
        <translation>Wert 1</translation>
    </message>
    <message>
        <source>Value 2</source>
        <translation>Wert 2</translation>
    </message>
    <message>
        <source>Value = raw number / divisor: 10, 100</source>
        <translation>Wert = Rohwert / Divisor: 10, 100</translation>
    </message>
    <message>
        <source>Value = raw number x 10 to this power: -1, 2</source>
        <translation>Wert = Rohwert x 10 hoch Exponent: -1, 2</translation>
    </message>
    <message>
        <source>Value = raw number x factor: 0.1, x0.1, /10 or 1/10</source>
        <translation>Wert = Rohwert x Faktor: 0.1, x0.1, /10 oder 1/10</translation>
    </message>
    <message>
        <source>Value when the panel is switched on</source>
        <translation>Der Wert beim Einschalten des Panels</translation>
    </message>
    <message>
        <source>Whether its number is shown as manuals print control words and status words: 047Fh</source>
        <translation>Ob seine Zahl so angezeigt wird, wie Handbücher Steuer- und Statuswörter drucken: 047Fh</translation>
    </message>
    <message>
        <source>Whether writing is allowed</source>
        <translation>Ob Schreiben erlaubt ist</translation>
    </message>
    <message>
        <source>Word order</source>
        <translation>Wortreihenfolge</translation>
    </message>
    <message>
        <source>Writable or not: R/W, RO, yes, no</source>
        <translation>Schreibbar oder nicht: R/W, RO, ja, nein</translation>
    </message>
    <message>
        <source>Write</source>
        <translation>Schreiben</translation>
    </message>
    <message>
        <source>Write interval</source>
        <translation>Schreibintervall</translation>
    </message>
    <message>
        <source>Write ms</source>
        <translation>Schr. ms</translation>
    </message>
    <message>
        <source>Writing</source>
        <translation>Schreiben</translation>
    </message>
    <message>
        <source>allowed</source>
        <translation>erlaubt</translation>
    </message>
    <message>
        <source>high-first, CDAB, little endian and similar. Left out: as set for the device</source>
        <translation>high-first, CDAB, little endian und Ähnliches. Ohne Angabe: wie beim Gerät eingestellt</translation>
    </message>
    <message>
        <source>registers</source>
        <translation>Register</translation>
    </message>
    <message>
        <source>shown as 047Fh</source>
        <translation>als 047Fh anzeigen</translation>
    </message>
    <message>
        <source>uint16, INT, REAL, DWORD, unsigned 32, string and similar</source>
        <translation>uint16, INT, REAL, DWORD, unsigned 32, string und Ähnliches</translation>
    </message>
</context>
<context>
    <name>bus</name>
    <message>
        <source>&apos;{name}&apos; contains a control character; type the name again</source>
        <translation>„{name}“ enthält ein Steuerzeichen; den Namen neu eingeben</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos;: sent {tries} times, repeated for another {left:.0f} s; {reason}</source>
        <translation>„{signal}“: {tries}-mal gesendet, Wiederholung noch {left:.0f} s; {reason}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos;: {reason}</source>
        <translation>„{signal}“: {reason}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; has no port; the usual one is {port}: {whole}</source>
        <translation>„{text}“ enthält keinen Port; üblich ist {port}: {whole}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; has no serial port; use serial:DEVICE, such as serial:/dev/ttyUSB0 or serial:COM3</source>
        <translation>„{text}“ enthält keinen seriellen Anschluss; möglich: serial:DEVICE, etwa serial:/dev/ttyUSB0 oder serial:COM3</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not an endpoint; use {forms}</source>
        <translation>„{text}“ ist kein Endpunkt; möglich: {forms}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not {scheme}://HOST:PORT, such as {scheme}://192.168.0.10:{port}</source>
        <translation>„{text}“ ist nicht {scheme}://HOST:PORT, etwa {scheme}://192.168.0.10:{port}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos;: port {port} is not in 1..65535</source>
        <translation>„{text}“: Port {port} liegt nicht in 1..65535</translation>
    </message>
    <message>
        <source>0 to 15</source>
        <translation>0 bis 15</translation>
    </message>
    <message>
        <source>0, broadcast to all devices</source>
        <translation>0, Broadcast an alle Geräte</translation>
    </message>
    <message>
        <source>0, return query data</source>
        <translation>0, Anfragedaten zurückgeben</translation>
    </message>
    <message>
        <source>1 bit</source>
        <translation>1 Bit</translation>
    </message>
    <message>
        <source>1 byte</source>
        <translation>1 Byte</translation>
    </message>
    <message>
        <source>1 register</source>
        <translation>1 Register</translation>
    </message>
    <message>
        <source>AND mask</source>
        <translation>UND-Maske</translation>
    </message>
    <message>
        <source>Line {line} cannot be opened</source>
        <translation>Leitung {line} lässt sich nicht öffnen</translation>
    </message>
    <message>
        <source>Line {line} is down</source>
        <translation>Leitung {line} ist ausgefallen</translation>
    </message>
    <message>
        <source>No device answers on line {line}</source>
        <translation>Auf Leitung {line} antwortet kein Gerät</translation>
    </message>
    <message>
        <source>OR mask</source>
        <translation>ODER-Maske</translation>
    </message>
    <message>
        <source>STOP FAILED: {signals} may still be on. Stop the machine at the machine.</source>
        <translation>STOPP FEHLGESCHLAGEN: {signals} eventuell noch eingeschaltet. Maschine vor Ort stillsetzen.</translation>
    </message>
    <message>
        <source>STOP NOT CONFIRMED: {signals} may still be on</source>
        <translation>STOPP NICHT BESTÄTIGT: {signals} eventuell noch eingeschaltet</translation>
    </message>
    <message>
        <source>Two devices answer at each of {count} addresses: {names}</source>
        <translation>An {count} Adressen antworten je zwei Geräte: {names}</translation>
    </message>
    <message>
        <source>Two devices answer at the address of {name}</source>
        <translation>Zwei Geräte antworten auf die Adresse von {name}</translation>
    </message>
    <message>
        <source>a frame that does not answer this request</source>
        <translation>ein Telegramm, das nicht zu dieser Anfrage gehört</translation>
    </message>
    <message>
        <source>a part of {name}, which has {count} registers</source>
        <translation>ein Teil von {name}, das {count} Register hat</translation>
    </message>
    <message>
        <source>a stop of device &apos;{name}&apos; (&apos;{signal}&apos;) is not confirmed yet</source>
        <translation>ein Stopp von Gerät „{name}“ („{signal}“) ist noch nicht bestätigt</translation>
    </message>
    <message>
        <source>a stop was requested in the meantime</source>
        <translation>inzwischen wurde ein Stopp angefordert</translation>
    </message>
    <message>
        <source>a value that its data type cannot hold</source>
        <translation>einen Wert, den sein Datentyp nicht darstellen kann</translation>
    </message>
    <message>
        <source>acknowledged, but not read back: a stop took priority</source>
        <translation>bestätigt, aber nicht zurückgelesen: ein Stopp hatte Vorrang</translation>
    </message>
    <message>
        <source>acknowledged, but not read back: {sentence}</source>
        <translation>bestätigt, aber nicht zurückgelesen: {sentence}</translation>
    </message>
    <message>
        <source>acknowledged, but nothing changed</source>
        <translation>bestätigt, aber der Wert hat sich nicht geändert</translation>
    </message>
    <message>
        <source>address</source>
        <translation>Adresse</translation>
    </message>
    <message>
        <source>all {count} readings are good</source>
        <translation>alle {count} Werte sind gut</translation>
    </message>
    <message>
        <source>another client</source>
        <translation>anderer Client</translation>
    </message>
    <message>
        <source>another client keeps writing register {number}</source>
        <translation>ein anderer Client schreibt ständig Register {number}</translation>
    </message>
    <message>
        <source>another client polled unit {asked} while unit {unit} was answering</source>
        <translation>ein anderer Client fragte Geräteadresse {asked} ab, während Geräteadresse {unit} antworten sollte</translation>
    </message>
    <message>
        <source>another client sent unit {unit} a similar request at the same time; it is not clear whose answer this is</source>
        <translation>ein anderer Client stellte Geräteadresse {unit} zugleich eine gleichartige Anfrage; wem die Antwort gilt, ist nicht erkennbar</translation>
    </message>
    <message>
        <source>another client wrote register {number}</source>
        <translation>ein anderer Client hat Register {number} geschrieben</translation>
    </message>
    <message>
        <source>another diagnostic</source>
        <translation>eine andere Diagnose</translation>
    </message>
    <message>
        <source>another program has this port open; close it there</source>
        <translation>ein anderes Programm hat diesen Anschluss geöffnet; dort schließen</translation>
    </message>
    <message>
        <source>answer</source>
        <translation>Antwort</translation>
    </message>
    <message>
        <source>answer cut off</source>
        <translation>Antwort unvollständig</translation>
    </message>
    <message>
        <source>answer too late</source>
        <translation>Antwort zu spät</translation>
    </message>
    <message>
        <source>answer: refused</source>
        <translation>Antwort: abgelehnt</translation>
    </message>
    <message>
        <source>answers take {ms} ms of the line&apos;s {limit} ms time-out; increase the time-out</source>
        <translation>Antworten brauchen {ms} ms von {limit} ms Timeout der Leitung; den Timeout erhöhen</translation>
    </message>
    <message>
        <source>bad check sum</source>
        <translation>Prüfsumme falsch</translation>
    </message>
    <message>
        <source>bus load</source>
        <translation>Busauslastung</translation>
    </message>
    <message>
        <source>byte count</source>
        <translation>Byteanzahl</translation>
    </message>
    <message>
        <source>byte {number} came twice</source>
        <translation>Byte {number} kam zweimal</translation>
    </message>
    <message>
        <source>bytes that are not a frame</source>
        <translation>Bytes, die kein Telegramm ergeben</translation>
    </message>
    <message>
        <source>check baud rate and parity, and that A and B are not swapped</source>
        <translation>Baudrate und Parität prüfen, und ob A und B vertauscht sind</translation>
    </message>
    <message>
        <source>check for a second client on the line; otherwise the device violates the protocol</source>
        <translation>nach einem zweiten Client an der Leitung suchen; sonst hält das Gerät das Protokoll nicht ein</translation>
    </message>
    <message>
        <source>check for a second device or a second client on the line</source>
        <translation>nach einem zweiten Gerät oder einem zweiten Client an der Leitung suchen</translation>
    </message>
    <message>
        <source>check its power, its unit address, the wiring, and on a serial line baud rate and parity</source>
        <translation>Versorgung, Geräteadresse und Verdrahtung prüfen, an einer seriellen Leitung auch Baudrate und Parität</translation>
    </message>
    <message>
        <source>check parity, baud rate, termination and shield, and that no two devices share a unit address</source>
        <translation>Parität, Baudrate, Abschlusswiderstände und Schirm prüfen, und ob zwei Geräte dieselbe Geräteadresse haben</translation>
    </message>
    <message>
        <source>check sum</source>
        <translation>Prüfsumme</translation>
    </message>
    <message>
        <source>check that the device answers</source>
        <translation>prüfen, ob das Gerät antwortet</translation>
    </message>
    <message>
        <source>check the converter and its driver; a doubled byte is not a wiring fault</source>
        <translation>Umsetzer und Treiber prüfen; ein doppeltes Byte ist kein Verdrahtungsfehler</translation>
    </message>
    <message>
        <source>check the wiring and the converter; a device that pauses within a frame also causes this</source>
        <translation>Verdrahtung und Umsetzer prüfen; auch ein Gerät mit Pausen im Telegramm verursacht dies</translation>
    </message>
    <message>
        <source>connecting</source>
        <translation>wird verbunden</translation>
    </message>
    <message>
        <source>connection closed</source>
        <translation>Verbindung beendet</translation>
    </message>
    <message>
        <source>connection refused</source>
        <translation>Verbindung abgelehnt</translation>
    </message>
    <message>
        <source>connection reset</source>
        <translation>Verbindung abgebrochen</translation>
    </message>
    <message>
        <source>connection to {where} refused; check that the device is on, its Modbus server is enabled, and the port is right</source>
        <translation>Verbindung zu {where} abgelehnt; prüfen, ob das Gerät eingeschaltet, sein Modbus-Server aktiv und der Port richtig ist</translation>
    </message>
    <message>
        <source>connection to {where} timed out; check the address, the cable and any firewall in between</source>
        <translation>Zeitüberschreitung beim Verbinden mit {where}; Adresse, Kabel und Firewalls dazwischen prüfen</translation>
    </message>
    <message>
        <source>correct</source>
        <translation>richtig</translation>
    </message>
    <message>
        <source>count</source>
        <translation>Anzahl</translation>
    </message>
    <message>
        <source>damaged answer</source>
        <translation>beschädigte Antwort</translation>
    </message>
    <message>
        <source>data</source>
        <translation>Daten</translation>
    </message>
    <message>
        <source>device &apos;{follower}&apos; has unit address {unit}, which is for Modbus TCP only, but {endpoint} is a serial line; use the address set at the device, 1 to 247</source>
        <translation>Gerät „{follower}“ hat die Geräteadresse {unit}, die es nur bei Modbus TCP gibt, aber {endpoint} ist eine serielle Leitung; die am Gerät eingestellte Adresse verwenden, 1 bis 247</translation>
    </message>
    <message>
        <source>device &apos;{follower}&apos; {sentence}</source>
        <translation>Gerät „{follower}“: {sentence}</translation>
    </message>
    <message>
        <source>device &apos;{name}&apos; does not answer: {reason}</source>
        <translation>Gerät „{name}“ antwortet nicht: {reason}</translation>
    </message>
    <message>
        <source>device &apos;{name}&apos; kept {held} instead of {wanted}</source>
        <translation>Gerät „{name}“ behielt {held} statt {wanted}</translation>
    </message>
    <message>
        <source>diagnostics</source>
        <translation>Diagnose</translation>
    </message>
    <message>
        <source>does not match this request</source>
        <translation>passt nicht zu dieser Anfrage</translation>
    </message>
    <message>
        <source>does not match this request: wrong length</source>
        <translation>passt nicht zu dieser Anfrage: falsche Länge</translation>
    </message>
    <message>
        <source>echo of the request from the adapter</source>
        <translation>Echo der Anfrage vom Adapter</translation>
    </message>
    <message>
        <source>encapsulated transport</source>
        <translation>gekapselter Transport</translation>
    </message>
    <message>
        <source>exception code</source>
        <translation>Exception-Code</translation>
    </message>
    <message>
        <source>exception {code}</source>
        <translation>Exception {code}</translation>
    </message>
    <message>
        <source>exception {code} at {register}, a device-specific code; see the manual</source>
        <translation>Exception {code} bei {register}, gerätespezifisch; siehe Handbuch</translation>
    </message>
    <message>
        <source>exception {code}, a device-specific code; see the manual</source>
        <translation>Exception {code}, gerätespezifisch; siehe Handbuch</translation>
    </message>
    <message>
        <source>extra bytes</source>
        <translation>überzählige Bytes</translation>
    </message>
    <message>
        <source>function</source>
        <translation>Funktion</translation>
    </message>
    <message>
        <source>garbled bytes</source>
        <translation>unlesbare Bytes</translation>
    </message>
    <message>
        <source>given up after {took} ms</source>
        <translation>nach {took} ms aufgegeben</translation>
    </message>
    <message>
        <source>given up after {took} ms, predicted {predicted} ms</source>
        <translation>nach {took} ms aufgegeben, erwartet {predicted} ms</translation>
    </message>
    <message>
        <source>good</source>
        <translation>gut</translation>
    </message>
    <message>
        <source>host &apos;{host}&apos; not found; check the spelling and the DNS server, or use its IP address</source>
        <translation>Host „{host}“ nicht gefunden; Schreibweise und DNS-Server prüfen oder die IP-Adresse verwenden</translation>
    </message>
    <message>
        <source>host unreachable</source>
        <translation>Host nicht erreichbar</translation>
    </message>
    <message>
        <source>in {seconds:.1f} s</source>
        <translation>in {seconds:.1f} s</translation>
    </message>
    <message>
        <source>incomplete answer</source>
        <translation>unvollständige Antwort</translation>
    </message>
    <message>
        <source>incomplete: {came} of {size} bytes</source>
        <translation>unvollständig: {came} von {size} Byte</translation>
    </message>
    <message>
        <source>increase the time-out of the line</source>
        <translation>den Timeout der Leitung erhöhen</translation>
    </message>
    <message>
        <source>interference on the line; check termination (120 ohm), shield, and distance from motor cables</source>
        <translation>Störungen auf der Leitung; Abschlusswiderstände (120 Ohm), Schirm und Abstand zu Motorkabeln prüfen</translation>
    </message>
    <message>
        <source>it could not be sent</source>
        <translation>nicht gesendet</translation>
    </message>
    <message>
        <source>it is not connected yet</source>
        <translation>noch nicht verbunden</translation>
    </message>
    <message>
        <source>its check sum is wrong</source>
        <translation>Prüfsumme falsch</translation>
    </message>
    <message>
        <source>keeps bits {bits}</source>
        <translation>behält Bits {bits}</translation>
    </message>
    <message>
        <source>length</source>
        <translation>Länge</translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; at {where}</source>
        <translation>Leitung „{line}“ an {where}</translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is down: it has no port or host</source>
        <translation>Leitung „{line}“ ist ausgefallen: Anschluss oder Host fehlt</translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is down: {sentence}</source>
        <translation>Leitung „{line}“ ist ausgefallen: {sentence}</translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is not armed</source>
        <translation>Schreiben auf Leitung „{line}“ ist nicht freigegeben</translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is stopped</source>
        <translation>Leitung „{line}“ ist angehalten</translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; was disarmed: device &apos;{name}&apos; did not answer for {limit} s</source>
        <translation>Schreiben auf Leitung „{line}“ wurde gesperrt: Gerät „{name}“ hat {limit} s lang nicht geantwortet</translation>
    </message>
    <message>
        <source>line &apos;{name}&apos; was disarmed</source>
        <translation>Schreiben auf Leitung „{name}“ wurde gesperrt</translation>
    </message>
    <message>
        <source>line &apos;{name}&apos; was stopped</source>
        <translation>Leitung „{name}“ wurde angehalten</translation>
    </message>
    <message>
        <source>line &apos;{name}&apos; was stopped by a fault in this program; start it again</source>
        <translation>Leitung „{name}“ wurde durch einen Programmfehler angehalten; neu starten</translation>
    </message>
    <message>
        <source>lowest bit first: {bits}</source>
        <translation>niederwertigstes zuerst: {bits}</translation>
    </message>
    <message>
        <source>mask write register</source>
        <translation>Register maskiert schreiben</translation>
    </message>
    <message>
        <source>more bytes than an exception has</source>
        <translation>mehr Bytes als eine Exception-Antwort hat</translation>
    </message>
    <message>
        <source>more bytes than this function has</source>
        <translation>mehr Bytes als diese Funktion hat</translation>
    </message>
    <message>
        <source>must come back unchanged</source>
        <translation>muss unverändert zurückkommen</translation>
    </message>
    <message>
        <source>neither FF00h (on) nor 0000h (off)</source>
        <translation>weder FF00h (ein) noch 0000h (aus)</translation>
    </message>
    <message>
        <source>no answer</source>
        <translation>keine Antwort</translation>
    </message>
    <message>
        <source>no connection to {where}: {said}; check address and port</source>
        <translation>keine Verbindung zu {where}: {said}; Adresse und Port prüfen</translation>
    </message>
    <message>
        <source>no newer value within {life_s:.1f} s</source>
        <translation>kein neuerer Wert in {life_s:.1f} s</translation>
    </message>
    <message>
        <source>no permission to open {port}; add this user to the group that owns it (often &apos;dialout&apos;) and log in again</source>
        <translation>keine Berechtigung für {port}; den Benutzer in die Gruppe aufnehmen, der er gehört (oft „dialout“), und neu anmelden</translation>
    </message>
    <message>
        <source>no route to {host}; check the cable and this computer&apos;s network address</source>
        <translation>keine Route zu {host}; Kabel und Netzwerkadresse dieses Rechners prüfen</translation>
    </message>
    <message>
        <source>no signal: {numbers}</source>
        <translation>kein Signal: {numbers}</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>not Modbus: this must be 0</source>
        <translation>kein Modbus: hier muss 0 stehen</translation>
    </message>
    <message>
        <source>not a frame</source>
        <translation>kein gültiges Telegramm</translation>
    </message>
    <message>
        <source>not acknowledged, but may have been written: {why}</source>
        <translation>nicht bestätigt, aber möglicherweise geschrieben: {why}</translation>
    </message>
    <message>
        <source>not decoded</source>
        <translation>nicht aufgeschlüsselt</translation>
    </message>
    <message>
        <source>not in the standard</source>
        <translation>nicht in der Norm</translation>
    </message>
    <message>
        <source>nothing to read</source>
        <translation>nichts zu lesen</translation>
    </message>
    <message>
        <source>of the last {count}</source>
        <translation>der letzten {count}</translation>
    </message>
    <message>
        <source>off</source>
        <translation>aus</translation>
    </message>
    <message>
        <source>on</source>
        <translation>ein</translation>
    </message>
    <message>
        <source>one bit is wrong (bit {bit} of byte {byte})</source>
        <translation>ein Bit ist falsch (Bit {bit} von Byte {byte})</translation>
    </message>
    <message>
        <source>one endpoint can replace one line, but the project has {count} ({names}); change the lines in the project, or use &apos;simulated&apos;</source>
        <translation>ein Endpunkt kann eine Leitung ersetzen, das Projekt hat aber {count} ({names}); die Leitungen im Projekt ändern oder „simulated“ verwenden</translation>
    </message>
    <message>
        <source>only one client may poll a serial line; disconnect the other one</source>
        <translation>an einer seriellen Leitung darf nur ein Client abfragen; den anderen abklemmen</translation>
    </message>
    <message>
        <source>only the superuser may open it; an administrator has to give it to a group, such as dialout</source>
        <translation>nur der Systemverwalter (root) darf ihn öffnen; ein Administrator muss ihn einer Gruppe zuordnen, etwa dialout</translation>
    </message>
    <message>
        <source>outages</source>
        <translation>Ausfälle</translation>
    </message>
    <message>
        <source>poll cycle</source>
        <translation>Abfragezyklus</translation>
    </message>
    <message>
        <source>port disappeared</source>
        <translation>Anschluss weg</translation>
    </message>
    <message>
        <source>port is busy</source>
        <translation>Anschluss belegt</translation>
    </message>
    <message>
        <source>port not found</source>
        <translation>Anschluss fehlt</translation>
    </message>
    <message>
        <source>port settings</source>
        <translation>Anschlusseinstellung</translation>
    </message>
    <message>
        <source>port {port} of {host}</source>
        <translation>Port {port} von {host}</translation>
    </message>
    <message>
        <source>port: no permission</source>
        <translation>keine Berechtigung</translation>
    </message>
    <message>
        <source>protocol</source>
        <translation>Protokoll</translation>
    </message>
    <message>
        <source>read FIFO queue</source>
        <translation>FIFO lesen</translation>
    </message>
    <message>
        <source>read address</source>
        <translation>Leseadresse</translation>
    </message>
    <message>
        <source>read coils</source>
        <translation>Coils lesen</translation>
    </message>
    <message>
        <source>read count</source>
        <translation>Leseanzahl</translation>
    </message>
    <message>
        <source>read discrete inputs</source>
        <translation>Discrete Inputs lesen</translation>
    </message>
    <message>
        <source>read event counter</source>
        <translation>Ereigniszähler lesen</translation>
    </message>
    <message>
        <source>read event log</source>
        <translation>Ereignisprotokoll lesen</translation>
    </message>
    <message>
        <source>read exception status</source>
        <translation>Exception-Status lesen</translation>
    </message>
    <message>
        <source>read file record</source>
        <translation>Dateisatz lesen</translation>
    </message>
    <message>
        <source>read holding registers</source>
        <translation>Holding-Register lesen</translation>
    </message>
    <message>
        <source>read input registers</source>
        <translation>Input-Register lesen</translation>
    </message>
    <message>
        <source>read the value back before relying on it</source>
        <translation>den Wert zurücklesen, bevor er als gültig gilt</translation>
    </message>
    <message>
        <source>read {table} {span}</source>
        <translation>{table} {span} lesen</translation>
    </message>
    <message>
        <source>read/write multiple registers</source>
        <translation>mehrere Register lesen und schreiben</translation>
    </message>
    <message>
        <source>received: nothing</source>
        <translation>empfangen: nichts</translation>
    </message>
    <message>
        <source>received: {what}</source>
        <translation>empfangen: {what}</translation>
    </message>
    <message>
        <source>refused</source>
        <translation>abgelehnt</translation>
    </message>
    <message>
        <source>refused: {name}</source>
        <translation>abgelehnt: {name}</translation>
    </message>
    <message>
        <source>refused: {name} at {concerned} (0-based addresses)</source>
        <translation>abgelehnt: {name} bei {concerned} (Adressen ab 0)</translation>
    </message>
    <message>
        <source>register {first}</source>
        <translation>Register {first}</translation>
    </message>
    <message>
        <source>register {number} keeps changing; its other bits may have been overwritten</source>
        <translation>Register {number} ändert sich ständig; seine anderen Bits können überschrieben worden sein</translation>
    </message>
    <message>
        <source>registers {first} to {last}</source>
        <translation>Register {first} bis {last}</translation>
    </message>
    <message>
        <source>report server ID</source>
        <translation>Serverkennung melden</translation>
    </message>
    <message>
        <source>request</source>
        <translation>Anfrage</translation>
    </message>
    <message>
        <source>request of another client</source>
        <translation>Anfrage eines anderen Clients</translation>
    </message>
    <message>
        <source>requests</source>
        <translation>Anfragen</translation>
    </message>
    <message>
        <source>response time of {follower}</source>
        <translation>Antwortzeit von {follower}</translation>
    </message>
    <message>
        <source>sent: nothing</source>
        <translation>gesendet: nichts</translation>
    </message>
    <message>
        <source>sent: request</source>
        <translation>gesendet: Anfrage</translation>
    </message>
    <message>
        <source>sent: {wanted}</source>
        <translation>gesendet: {wanted}</translation>
    </message>
    <message>
        <source>serial port {device}</source>
        <translation>serieller Anschluss {device}</translation>
    </message>
    <message>
        <source>serial port {device} disappeared while in use; plug the adapter in again</source>
        <translation>serieller Anschluss {device} ist im Betrieb verschwunden; den Adapter wieder einstecken</translation>
    </message>
    <message>
        <source>serial port {device} is also used by line &apos;{shared_with}&apos; of this project; put the devices of both on one line, or choose another port</source>
        <translation>serieller Anschluss {device} wird auch von Leitung „{shared_with}“ dieses Projekts benutzt; die Geräte beider an eine Leitung legen oder einen anderen Anschluss wählen</translation>
    </message>
    <message>
        <source>sets bits {bits}, clears the other bits that are not kept</source>
        <translation>setzt Bits {bits}, löscht die übrigen nicht beibehaltenen</translation>
    </message>
    <message>
        <source>signal &apos;{signal}&apos; is in registers that are never read from device &apos;{follower}&apos;; correct its register or the range (&apos;never_read&apos;)</source>
        <translation>Signal „{signal}“ liegt in Registern, die von Gerät „{follower}“ nie gelesen werden; Register oder Bereich („never_read“) berichtigen</translation>
    </message>
    <message>
        <source>some bytes read as zero, the others are right</source>
        <translation>einige Bytes sind Null, die anderen stimmen</translation>
    </message>
    <message>
        <source>stopped</source>
        <translation>angehalten</translation>
    </message>
    <message>
        <source>stray byte</source>
        <translation>unerwartetes Byte</translation>
    </message>
    <message>
        <source>stray bytes</source>
        <translation>unerwartete Bytes</translation>
    </message>
    <message>
        <source>sub-function</source>
        <translation>Unterfunktion</translation>
    </message>
    <message>
        <source>the adapter echoes, and something else sends on the line at the same time; check for a second client, two devices with the same unit address, and swapped wires</source>
        <translation>der Adapter gibt ein Echo, und etwas anderes sendet gleichzeitig auf der Leitung; nach einem zweiten Client, zwei Geräten mit gleicher Geräteadresse und vertauschten Adern suchen</translation>
    </message>
    <message>
        <source>the adapter or converter switches from sending to receiving too late; shorten its turn-off delay, or increase the device&apos;s answer delay</source>
        <translation>der Adapter oder Umsetzer schaltet zu spät auf Empfang; Abschaltverzögerung verkürzen oder Antwortverzögerung des Geräts erhöhen</translation>
    </message>
    <message>
        <source>the answer has transaction number {found} instead of {asked}</source>
        <translation>die Antwort hat Transaktionsnummer {found} statt {asked}</translation>
    </message>
    <message>
        <source>the answer of unit {unit} arrived damaged: {seen}</source>
        <translation>die Antwort von Geräteadresse {unit} kam beschädigt an: {seen}</translation>
    </message>
    <message>
        <source>the answer of unit {unit} ended after {came} of {wanted} bytes</source>
        <translation>die Antwort von Geräteadresse {unit} brach nach {came} von {wanted} Byte ab</translation>
    </message>
    <message>
        <source>the connection of line &apos;{name}&apos; was closed</source>
        <translation>die Verbindung der Leitung „{name}“ wurde getrennt</translation>
    </message>
    <message>
        <source>the connection to {endpoint} was reset; the device may have restarted, or a firewall has dropped it</source>
        <translation>die Verbindung zu {endpoint} wurde abgebrochen; das Gerät ist vielleicht neu gestartet, oder eine Firewall hat sie verworfen</translation>
    </message>
    <message>
        <source>the connection was closed</source>
        <translation>die Verbindung wurde getrennt</translation>
    </message>
    <message>
        <source>the device cannot do this now; see its manual</source>
        <translation>das Gerät kann das jetzt nicht; siehe Handbuch</translation>
    </message>
    <message>
        <source>the device closed the connection to {endpoint}; it may have been switched off, it may close idle connections, or it allows fewer connections</source>
        <translation>die Gegenseite hat die Verbindung zu {endpoint} beendet; das Gerät wurde vielleicht ausgeschaltet, beendet ungenutzte Verbindungen oder lässt weniger Verbindungen zu</translation>
    </message>
    <message>
        <source>the device could not be reached</source>
        <translation>das Gerät war nicht erreichbar</translation>
    </message>
    <message>
        <source>the device does not accept this value or count</source>
        <translation>das Gerät nimmt diesen Wert oder diese Anzahl nicht an</translation>
    </message>
    <message>
        <source>the device does not have this register; compare the number and the numbering with its manual</source>
        <translation>das Gerät hat dieses Register nicht; Nummer und Zählweise mit dem Handbuch vergleichen</translation>
    </message>
    <message>
        <source>the device does not support this function; its manual lists the ones it does</source>
        <translation>das Gerät unterstützt diese Funktion nicht; das Handbuch nennt die unterstützten</translation>
    </message>
    <message>
        <source>the device failed while doing this; look at its own fault display</source>
        <translation>das Gerät ist dabei auf einen Fehler gestoßen; seine eigene Störungsanzeige ansehen</translation>
    </message>
    <message>
        <source>the device has a memory error</source>
        <translation>das Gerät meldet einen Speicherfehler</translation>
    </message>
    <message>
        <source>the device has accepted the request and needs more time; ask again later</source>
        <translation>das Gerät hat die Anfrage angenommen und braucht länger; später erneut anfragen</translation>
    </message>
    <message>
        <source>the device is busy; ask again later, or less often</source>
        <translation>das Gerät ist beschäftigt; später oder seltener anfragen</translation>
    </message>
    <message>
        <source>the device or gateway violates Modbus TCP</source>
        <translation>das Gerät oder Gateway hält Modbus TCP nicht ein</translation>
    </message>
    <message>
        <source>the first byte is missing</source>
        <translation>das erste Byte fehlt</translation>
    </message>
    <message>
        <source>the gateway got no answer from that unit address; check the device behind it</source>
        <translation>das Gateway bekam von dieser Geräteadresse keine Antwort; das Gerät dahinter prüfen</translation>
    </message>
    <message>
        <source>the gateway has no path to that unit address; check its configuration</source>
        <translation>das Gateway hat keinen Pfad zu dieser Geräteadresse; seine Konfiguration prüfen</translation>
    </message>
    <message>
        <source>the key press was not sent</source>
        <translation>der Tastendruck wurde nicht gesendet</translation>
    </message>
    <message>
        <source>the line was stopped</source>
        <translation>die Leitung wurde angehalten</translation>
    </message>
    <message>
        <source>the other bits of register {number} were written with the values last read</source>
        <translation>die übrigen Bits von Register {number} wurden mit den zuletzt gelesenen Werten geschrieben</translation>
    </message>
    <message>
        <source>the registers that are written</source>
        <translation>die geschriebenen Register</translation>
    </message>
    <message>
        <source>the registers that were read</source>
        <translation>die gelesenen Register</translation>
    </message>
    <message>
        <source>there is no address for {host}</source>
        <translation>keine Adresse für {host}</translation>
    </message>
    <message>
        <source>there is no {port}; plug the adapter in, or check the port&apos;s name</source>
        <translation>{port} ist nicht vorhanden; den Adapter einstecken oder den Namen prüfen</translation>
    </message>
    <message>
        <source>this is our own request, returned damaged</source>
        <translation>das ist die eigene Anfrage, beschädigt zurückgekommen</translation>
    </message>
    <message>
        <source>this line has no port or host</source>
        <translation>für diese Leitung fehlt Anschluss oder Host</translation>
    </message>
    <message>
        <source>this looks like a wrong baud rate: the device&apos;s is higher than this line&apos;s</source>
        <translation>vermutlich falsche Baudrate: Die des Geräts ist höher als die dieser Leitung</translation>
    </message>
    <message>
        <source>this looks like a wrong baud rate: the device&apos;s is lower than this line&apos;s</source>
        <translation>vermutlich falsche Baudrate: Die des Geräts ist niedriger als die dieser Leitung</translation>
    </message>
    <message>
        <source>this looks like a wrong parity: the device sends a parity bit that this line does not expect; the bytes suggest even parity</source>
        <translation>vermutlich falsche Parität: Das Gerät sendet ein Paritätsbit (wohl gerade), das diese Leitung nicht erwartet</translation>
    </message>
    <message>
        <source>this looks like a wrong parity: the device sends a parity bit that this line does not expect; the bytes suggest odd parity</source>
        <translation>vermutlich falsche Parität: Das Gerät sendet ein Paritätsbit (wohl ungerade), das diese Leitung nicht erwartet</translation>
    </message>
    <message>
        <source>this looks like a wrong parity: the device sends no parity bit, or a different number of stop bits</source>
        <translation>vermutlich falsche Parität: Das Gerät sendet kein Paritätsbit oder eine andere Anzahl Stoppbits</translation>
    </message>
    <message>
        <source>this program has this port open; disconnect the line, or stop the search on it</source>
        <translation>dieses Programm hat diesen Anschluss geöffnet; die Leitung trennen oder die Suche darauf anhalten</translation>
    </message>
    <message>
        <source>this user is in the group {group}, which may open it, from the next login on: log out and in again</source>
        <translation>dieser Benutzer ist erst ab der nächsten Anmeldung in der Gruppe {group}, die ihn öffnen darf: ab- und wieder anmelden</translation>
    </message>
    <message>
        <source>this user may not open it; an administrator adds the user to the group {group} (sudo usermod -aG {group} {user}), then log out and in again</source>
        <translation>dieser Benutzer darf ihn nicht öffnen; ein Administrator nimmt ihn in die Gruppe {group} auf (sudo usermod -aG {group} {user}), danach ab- und wieder anmelden</translation>
    </message>
    <message>
        <source>this user may not open it; unplug the adapter and plug it in again, or let an administrator give the right to read and write {device}</source>
        <translation>dieser Benutzer darf ihn nicht öffnen; den Adapter ab- und wieder anstecken oder von einem Administrator das Recht geben lassen, {device} zu lesen und zu schreiben</translation>
    </message>
    <message>
        <source>too late to be sent</source>
        <translation>zu spät zum Senden</translation>
    </message>
    <message>
        <source>transaction</source>
        <translation>Transaktion</translation>
    </message>
    <message>
        <source>two devices at one address? A radio link or converter that repeats, or another client, can also be the cause</source>
        <translation>zwei Geräte mit derselben Adresse? Auch eine Funkstrecke oder ein Umsetzer mit Wiederholungen oder ein zweiter Client kann die Ursache sein</translation>
    </message>
    <message>
        <source>unexpected answer</source>
        <translation>unerwartete Antwort</translation>
    </message>
    <message>
        <source>unit address</source>
        <translation>Geräteadresse</translation>
    </message>
    <message>
        <source>unit {unit} acknowledged a different register or value from the one written</source>
        <translation>Geräteadresse {unit} bestätigte ein anderes Register oder einen anderen Wert als geschrieben</translation>
    </message>
    <message>
        <source>unit {unit} answered a second time, {delay:.0f} ms after the first</source>
        <translation>Geräteadresse {unit} antwortete ein zweites Mal, {delay:.0f} ms nach dem ersten</translation>
    </message>
    <message>
        <source>unit {unit} answered instead of unit {asked}</source>
        <translation>Geräteadresse {unit} antwortete statt Geräteadresse {asked}</translation>
    </message>
    <message>
        <source>unit {unit} answered with function {function:02d} instead of {asked:02d}</source>
        <translation>Geräteadresse {unit} antwortete mit Funktion {function:02d} statt {asked:02d}</translation>
    </message>
    <message>
        <source>unit {unit} answered {late_ms:.0f} ms after the time-out</source>
        <translation>Geräteadresse {unit} antwortete {late_ms:.0f} ms nach dem Timeout</translation>
    </message>
    <message>
        <source>unit {unit} did not answer</source>
        <translation>Geräteadresse {unit} antwortete nicht</translation>
    </message>
    <message>
        <source>unit {unit} did not answer within {took:.0f} ms, then an output had to be refreshed</source>
        <translation>Geräteadresse {unit} antwortete nicht innerhalb {took:.0f} ms, dann musste ein Ausgang aufgefrischt werden</translation>
    </message>
    <message>
        <source>unit {unit} did not answer; an earlier answer was repeated</source>
        <translation>Geräteadresse {unit} antwortete nicht; eine frühere Antwort kam noch einmal</translation>
    </message>
    <message>
        <source>unit {unit} did not answer; only our own request came back from the adapter</source>
        <translation>Geräteadresse {unit} antwortete nicht; nur die eigene Anfrage kam vom Adapter zurück</translation>
    </message>
    <message>
        <source>unit {unit} gave two different answers to one request; neither is shown until this has not happened for {seconds:.0f} s</source>
        <translation>Geräteadresse {unit} gab zwei verschiedene Antworten auf eine Anfrage; keine wird angezeigt, bis das {seconds:.0f} s lang nicht mehr vorkam</translation>
    </message>
    <message>
        <source>unit {unit} may still answer an earlier request</source>
        <translation>Geräteadresse {unit} antwortet vielleicht noch auf eine frühere Anfrage</translation>
    </message>
    <message>
        <source>unit {unit} refused, or an earlier refusal was repeated</source>
        <translation>Geräteadresse {unit} lehnte ab, oder eine frühere Ablehnung kam ein zweites Mal</translation>
    </message>
    <message>
        <source>unit {unit} sent an answer of {bytes}; the answer to this request has {answer_length}</source>
        <translation>Geräteadresse {unit} sandte eine Antwort von {bytes}; zu dieser Anfrage gehören {answer_length}</translation>
    </message>
    <message>
        <source>unit {unit} sent an answer without a request</source>
        <translation>Geräteadresse {unit} sandte eine Antwort ohne Anfrage</translation>
    </message>
    <message>
        <source>unknown host</source>
        <translation>Host unbekannt</translation>
    </message>
    <message>
        <source>unreliable: {words}</source>
        <translation>unzuverlässig: {words}</translation>
    </message>
    <message>
        <source>value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>write address</source>
        <translation>Schreibadresse</translation>
    </message>
    <message>
        <source>write count</source>
        <translation>Schreibanzahl</translation>
    </message>
    <message>
        <source>write file record</source>
        <translation>Dateisatz schreiben</translation>
    </message>
    <message>
        <source>write multiple coils</source>
        <translation>mehrere Coils schreiben</translation>
    </message>
    <message>
        <source>write multiple registers</source>
        <translation>mehrere Register schreiben</translation>
    </message>
    <message>
        <source>write single coil</source>
        <translation>einzelnen Coil schreiben</translation>
    </message>
    <message>
        <source>write single register</source>
        <translation>einzelnes Register schreiben</translation>
    </message>
    <message>
        <source>write {table} {span}</source>
        <translation>{table} {span} schreiben</translation>
    </message>
    <message>
        <source>wrong echo</source>
        <translation>falsches Echo</translation>
    </message>
    <message>
        <source>wrong function</source>
        <translation>falsche Funktion</translation>
    </message>
    <message>
        <source>wrong length</source>
        <translation>falsche Länge</translation>
    </message>
    <message>
        <source>wrong transaction</source>
        <translation>falsche Transaktion</translation>
    </message>
    <message>
        <source>wrong unit answered</source>
        <translation>falsche Adresse</translation>
    </message>
    <message>
        <source>wrong: these bytes give {due}</source>
        <translation>falsch: diese Bytes ergeben {due}</translation>
    </message>
    <message>
        <source>{baud} Bd, parity {parity}, {stop_bits} stop bits</source>
        <translation>{baud} Bd, Parität {parity}, {stop_bits} Stoppbits</translation>
    </message>
    <message>
        <source>{bytes} arrived instead of an answer of unit {unit}, not a frame</source>
        <translation>statt einer Antwort von Geräteadresse {unit} kam: {bytes}, kein gültiges Telegramm</translation>
    </message>
    <message>
        <source>{bytes} arrived instead of an answer of unit {unit}: {seen}</source>
        <translation>statt einer Antwort von Geräteadresse {unit} kam: {bytes}: {seen}</translation>
    </message>
    <message>
        <source>{bytes} follow</source>
        <translation>es folgen {bytes}</translation>
    </message>
    <message>
        <source>{bytes} of data follow</source>
        <translation>es folgen {bytes} Daten</translation>
    </message>
    <message>
        <source>{bytes} should follow, but there are {found}</source>
        <translation>{bytes} sollten folgen, es sind {found}</translation>
    </message>
    <message>
        <source>{clock}  {follower}: {deed}, line &apos;{line}&apos;</source>
        <translation>{clock}  {follower}: {deed}, Leitung „{line}“</translation>
    </message>
    <message>
        <source>{code:02d}, {name}: refused (80h added)</source>
        <translation>{code:02d}, {name}: abgelehnt (80h addiert)</translation>
    </message>
    <message>
        <source>{code}, device-specific: see the manual of the device</source>
        <translation>{code}, gerätespezifisch: siehe Handbuch des Geräts</translation>
    </message>
    <message>
        <source>{count} bits</source>
        <translation>{count} Bits</translation>
    </message>
    <message>
        <source>{count} bytes</source>
        <translation>{count} Byte</translation>
    </message>
    <message>
        <source>{count} bytes instead of {wanted}, most of them only zeros or a single run of ones</source>
        <translation>{count} Byte statt {wanted}, die meisten nur Nullen oder eine Folge von Einsen</translation>
    </message>
    <message>
        <source>{count} bytes instead of {wanted}, most of them zeros</source>
        <translation>{count} Byte statt {wanted}, die meisten Nullen</translation>
    </message>
    <message>
        <source>{count} devices answer too late: {names}</source>
        <translation>{count} Geräte antworten zu spät: {names}</translation>
    </message>
    <message>
        <source>{count} devices answer twice: {names}</source>
        <translation>{count} Geräte antworten doppelt: {names}</translation>
    </message>
    <message>
        <source>{count} devices do not answer: {names}</source>
        <translation>{count} Geräte antworten nicht: {names}</translation>
    </message>
    <message>
        <source>{count} of {total} readings are doubtful</source>
        <translation>{count} von {total} Werten sind zweifelhaft</translation>
    </message>
    <message>
        <source>{count} of {total} readings are implausible</source>
        <translation>{count} von {total} Werten sind unplausibel</translation>
    </message>
    <message>
        <source>{count} of {total} readings are old</source>
        <translation>{count} von {total} Werten sind alt</translation>
    </message>
    <message>
        <source>{count} of {total} readings are refused</source>
        <translation>{count} von {total} Werten werden abgelehnt</translation>
    </message>
    <message>
        <source>{count} of {total} readings were not read yet</source>
        <translation>{count} von {total} Werten wurden noch nicht gelesen</translation>
    </message>
    <message>
        <source>{count} registers</source>
        <translation>{count} Register</translation>
    </message>
    <message>
        <source>{count}, {seconds:.1f} s in total, the last one {last:.1f} s</source>
        <translation>{count}, zusammen {seconds:.1f} s, der letzte {last:.1f} s</translation>
    </message>
    <message>
        <source>{device} is not a serial port; check the port&apos;s name</source>
        <translation>{device} ist kein serieller Anschluss; den Namen prüfen</translation>
    </message>
    <message>
        <source>{follow}; expected: {due}</source>
        <translation>{follow}; erwartet: {due}</translation>
    </message>
    <message>
        <source>{found}, as requested</source>
        <translation>{found}, wie angefragt</translation>
    </message>
    <message>
        <source>{found}; requested: {asked}</source>
        <translation>{found}; angefragt: {asked}</translation>
    </message>
    <message>
        <source>{found}; written: {wanted}</source>
        <translation>{found}; geschrieben: {wanted}</translation>
    </message>
    <message>
        <source>{kept}, unchanged: the register may be read-only, limited, or not writable in the device&apos;s present state</source>
        <translation>{kept}, unverändert: Das Register ist vielleicht nur lesbar, begrenzt oder im jetzigen Zustand des Geräts nicht schreibbar</translation>
    </message>
    <message>
        <source>{kept}: the device limits this value; compare its limits with those of the signal</source>
        <translation>{kept}: Das Gerät begrenzt diesen Wert; seine Grenzen mit denen des Signals vergleichen</translation>
    </message>
    <message>
        <source>{median} ms median, {most} ms 95 %, {worst} ms worst</source>
        <translation>{median} ms Median, {most} ms 95 %, {worst} ms längste</translation>
    </message>
    <message>
        <source>{named} (sets bits {bits})</source>
        <translation>{named} (setzt Bits {bits})</translation>
    </message>
    <message>
        <source>{names} and {count} more</source>
        <translation>{names} und {count} weitere</translation>
    </message>
    <message>
        <source>{name} = {shown} (raw {raw})</source>
        <translation>{name} = {shown} (roh {raw})</translation>
    </message>
    <message>
        <source>{name} answers slowly</source>
        <translation>{name} antwortet langsam</translation>
    </message>
    <message>
        <source>{name} answers too late</source>
        <translation>{name} antwortet zu spät</translation>
    </message>
    <message>
        <source>{name} answers twice</source>
        <translation>{name} antwortet doppelt</translation>
    </message>
    <message>
        <source>{name} at {register}; {meaning}</source>
        <translation>{name} bei {register}; {meaning}</translation>
    </message>
    <message>
        <source>{name} does not answer</source>
        <translation>{name} antwortet nicht</translation>
    </message>
    <message>
        <source>{name} refuses all {count} readings</source>
        <translation>{name} lehnt alle {count} Werte ab</translation>
    </message>
    <message>
        <source>{port} cannot be opened: {said}; check the adapter and the port&apos;s name</source>
        <translation>{port} kann nicht geöffnet werden: {said}; Adapter und Namen des Anschlusses prüfen</translation>
    </message>
    <message>
        <source>{port} cannot be opened; unplug the adapter and plug it in again</source>
        <translation>{port} lässt sich nicht öffnen; den Adapter abziehen und wieder einstecken</translation>
    </message>
    <message>
        <source>{port} does not support {settings}; choose other settings</source>
        <translation>{port} unterstützt {settings} nicht; andere Einstellungen wählen</translation>
    </message>
    <message>
        <source>{port} is in use; close the other program that has it open</source>
        <translation>{port} ist belegt; das andere Programm schließen, das ihn offen hat</translation>
    </message>
    <message>
        <source>{register}; {number} in the manual</source>
        <translation>{register}; im Handbuch {number}</translation>
    </message>
    <message>
        <source>{requests}, {good} good</source>
        <translation>{requests}, {good} gut</translation>
    </message>
    <message>
        <source>{took} ms (predicted {predicted})</source>
        <translation>{took} ms (erwartet {predicted})</translation>
    </message>
    <message>
        <source>{took} ms, predicted {predicted} ms</source>
        <translation>{took} ms, erwartet {predicted} ms</translation>
    </message>
    <message>
        <source>{unit}, device {name}</source>
        <translation>{unit}, Gerät {name}</translation>
    </message>
</context>
<context>
    <name>cautions</name>
    <message>
        <source>Local regulations and a qualified person who knows this machine decide whether it may run now.</source>
        <translation>Örtliche Vorschriften und eine qualifizierte Person, die diese Maschine kennt, entscheiden, ob sie jetzt laufen darf.</translation>
    </message>
    <message>
        <source>Motion can start immediately and without warning, even from a value set earlier.</source>
        <translation>Eine Bewegung kann sofort und ohne Vorwarnung beginnen, auch durch einen früher gesetzten Wert.</translation>
    </message>
    <message>
        <source>No key on this screen is an emergency stop. Keep a working emergency stop within reach.</source>
        <translation>Keine Taste auf diesem Bildschirm ist ein Not-Halt. Einen funktionierenden Not-Halt in Reichweite halten.</translation>
    </message>
    <message>
        <source>Nobody is near the machine or anything it moves, and nobody can approach unseen.</source>
        <translation>Niemand ist in der Nähe der Maschine oder bewegter Teile, und niemand kann sich unbemerkt nähern.</translation>
    </message>
</context>
<context>
    <name>cells</name>
    <message>
        <source>&apos;{text}&apos; is ambiguous: {choices}</source>
        <translation>„{text}“ ist mehrdeutig: {choices}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not one of these: {choices}</source>
        <translation>„{text}“ ist keines von diesen: {choices}</translation>
    </message>
    <message>
        <source>choose one of these: {choices}</source>
        <translation>eines von diesen wählen: {choices}</translation>
    </message>
    <message>
        <source>does not apply to this part; leave the cell empty</source>
        <translation>gilt nicht für dieses Teil; die Zelle leer lassen</translation>
    </message>
    <message>
        <source>there is no &apos;{text}&apos;</source>
        <translation>„{text}“ gibt es nicht</translation>
    </message>
    <message>
        <source>there is nothing to choose from yet</source>
        <translation>noch nichts zur Auswahl</translation>
    </message>
    <message>
        <source>{name} already exists; choose another name</source>
        <translation>{name} gibt es schon; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>{reason}; the row is not changed</source>
        <translation>{reason}; die Zeile bleibt unverändert</translation>
    </message>
    <message>
        <source>{reason}; the row is skipped</source>
        <translation>{reason}; die Zeile wird übersprungen</translation>
    </message>
</context>
<context>
    <name>checks</name>
    <message>
        <source>Add a screen</source>
        <translation>Bild anlegen</translation>
    </message>
    <message>
        <source>Add key {key} to the panel</source>
        <translation>Taste {key} am Panel anlegen</translation>
    </message>
    <message>
        <source>Change it to a number field</source>
        <translation>In ein Zahlenfeld ändern</translation>
    </message>
    <message>
        <source>Clear the text under the field</source>
        <translation>Text unter dem Feld löschen</translation>
    </message>
    <message>
        <source>Cut the text off at the last column</source>
        <translation>Text nach der letzten Spalte abschneiden</translation>
    </message>
    <message>
        <source>Delete this device</source>
        <translation>Dieses Gerät löschen</translation>
    </message>
    <message>
        <source>Delete this line</source>
        <translation>Diese Leitung löschen</translation>
    </message>
    <message>
        <source>Delete this signal</source>
        <translation>Dieses Signal löschen</translation>
    </message>
    <message>
        <source>Disable repeated writing</source>
        <translation>Zyklisches Schreiben abschalten</translation>
    </message>
    <message>
        <source>Do not treat it as a stop</source>
        <translation>Nicht als Stopp behandeln</translation>
    </message>
    <message>
        <source>Fill in the English messages</source>
        <translation>Englische Meldungen eintragen</translation>
    </message>
    <message>
        <source>Fill in the German messages</source>
        <translation>Deutsche Meldungen eintragen</translation>
    </message>
    <message>
        <source>Give it a unique name; references keep pointing to the first one</source>
        <translation>Eigenen Namen geben; Verweise gelten weiter dem ersten</translation>
    </message>
    <message>
        <source>Give {signal} the text {texts}</source>
        <translation>Für {signal} den Text {texts} anlegen</translation>
    </message>
    <message>
        <source>Make it read-only</source>
        <translation>Schreiben nicht zulassen</translation>
    </message>
    <message>
        <source>Make key {key} go from {source} to {target}</source>
        <translation>Mit Taste {key} von {source} nach {target} wechseln</translation>
    </message>
    <message>
        <source>Make key {key} switch it off on every screen</source>
        <translation>Taste {key} auf jedem Bild zum Ausschalten verwenden</translation>
    </message>
    <message>
        <source>Make the field {cells} wide</source>
        <translation>Feld auf {cells} verbreitern</translation>
    </message>
    <message>
        <source>Make {signal} writable</source>
        <translation>Schreiben von {signal} zulassen</translation>
    </message>
    <message>
        <source>Move the field to row {row}, column {column}</source>
        <translation>Feld nach Zeile {row}, Spalte {column} verschieben</translation>
    </message>
    <message>
        <source>Narrow the limits of {signal} to {low} and {high}</source>
        <translation>Grenzen von {signal} auf {low} und {high} einschränken</translation>
    </message>
    <message>
        <source>Narrow the limits to {low} and {high}</source>
        <translation>Grenzen auf {low} und {high} einschränken</translation>
    </message>
    <message>
        <source>Read {signal} every {every} ms</source>
        <translation>{signal} alle {every} ms lesen</translation>
    </message>
    <message>
        <source>Remove the length</source>
        <translation>Länge entfernen</translation>
    </message>
    <message>
        <source>Remove the scale</source>
        <translation>Skalierung entfernen</translation>
    </message>
    <message>
        <source>Remove the second of the two keys</source>
        <translation>Die zweite der beiden Tasten entfernen</translation>
    </message>
    <message>
        <source>Remove the start value</source>
        <translation>Startwert entfernen</translation>
    </message>
    <message>
        <source>Remove the text {text}</source>
        <translation>Text {text} entfernen</translation>
    </message>
    <message>
        <source>Remove the word order</source>
        <translation>Wortreihenfolge entfernen</translation>
    </message>
    <message>
        <source>Remove this action</source>
        <translation>Diese Aktion entfernen</translation>
    </message>
    <message>
        <source>Remove this role</source>
        <translation>Diese Rolle entfernen</translation>
    </message>
    <message>
        <source>Remove this screen change</source>
        <translation>Diesen Bildwechsel entfernen</translation>
    </message>
    <message>
        <source>Remove this text</source>
        <translation>Diesen Text entfernen</translation>
    </message>
    <message>
        <source>Remove value entry from this field</source>
        <translation>Eingabe in diesem Feld abschalten</translation>
    </message>
    <message>
        <source>Repeat the stop of key {key} until it is confirmed</source>
        <translation>Stopp der Taste {key} wiederholen, bis er bestätigt ist</translation>
    </message>
    <message>
        <source>Set its unit address to {unit}</source>
        <translation>Geräteadresse {unit} einstellen</translation>
    </message>
    <message>
        <source>Set the start value to {value}</source>
        <translation>Startwert auf {value} setzen</translation>
    </message>
    <message>
        <source>Set the step of {signal} to {step}</source>
        <translation>Schrittweite von {signal} auf {step} setzen</translation>
    </message>
    <message>
        <source>Set the step to {step}</source>
        <translation>Schrittweite auf {step} setzen</translation>
    </message>
    <message>
        <source>Show it as a number</source>
        <translation>Als Zahl zeigen</translation>
    </message>
    <message>
        <source>Show it in decimal</source>
        <translation>Dezimal anzeigen</translation>
    </message>
    <message>
        <source>Simulate plain registers instead</source>
        <translation>Stattdessen reine Register simulieren</translation>
    </message>
    <message>
        <source>Use {name} there instead</source>
        <translation>Dort stattdessen {name} verwenden</translation>
    </message>
    <message>
        <source>Write it every {every} ms</source>
        <translation>Alle {every} ms schreiben</translation>
    </message>
    <message>
        <source>Write {text}</source>
        <translation>{text} schreiben</translation>
    </message>
    <message>
        <source>a reason is required, for whoever reads this later</source>
        <translation>eine Begründung ist erforderlich, für alle, die dies später lesen</translation>
    </message>
    <message>
        <source>a signal selects the language, but the panel has only one</source>
        <translation>ein Signal wählt die Sprache, aber das Panel hat nur eine</translation>
    </message>
    <message>
        <source>a step of {step} is not visible with {decimals} decimals</source>
        <translation>eine Schrittweite von {step} ist mit {decimals} Nachkommastellen nicht sichtbar</translation>
    </message>
    <message>
        <source>accept this if the device needs it</source>
        <translation>dies akzeptieren, wenn das Gerät es braucht</translation>
    </message>
    <message>
        <source>add a line, a device and its signals</source>
        <translation>eine Leitung, ein Gerät und seine Signale anlegen</translation>
    </message>
    <message>
        <source>add a screen</source>
        <translation>ein Bild anlegen</translation>
    </message>
    <message>
        <source>add a screen change by a key, such as ESCAPE, or after idle time</source>
        <translation>einen Bildwechsel durch eine Taste wie ESCAPE oder nach einer Zeit ohne Bedienung anlegen</translation>
    </message>
    <message>
        <source>add a screen change to it, or remove the screen</source>
        <translation>einen Bildwechsel dorthin anlegen oder das Bild entfernen</translation>
    </message>
    <message>
        <source>add a second language in the panel&apos;s properties, or remove this</source>
        <translation>in den Eigenschaften des Panels eine zweite Sprache anlegen oder dies entfernen</translation>
    </message>
    <message>
        <source>add a text for {value} if it can occur, or one for all other values: otherwise = ...</source>
        <translation>einen Text für {value} angeben, wenn dieser Wert vorkommen kann, oder einen für alle übrigen: otherwise = ...</translation>
    </message>
    <message>
        <source>add an action that clears {signal} by a stop key</source>
        <translation>eine Aktion anlegen, die {signal} mit einer Stopptaste löscht</translation>
    </message>
    <message>
        <source>add it, or choose an existing one</source>
        <translation>hinzufügen oder ein vorhandenes wählen</translation>
    </message>
    <message>
        <source>add its devices, or remove it</source>
        <translation>ihre Geräte anlegen oder sie entfernen</translation>
    </message>
    <message>
        <source>add its signals, or remove it</source>
        <translation>seine Signale anlegen oder es entfernen</translation>
    </message>
    <message>
        <source>add key {key} to the panel, or set another key as &apos;{purpose}&apos; in its entry keys</source>
        <translation>die Taste {key} am Panel anlegen oder bei den Eingabetasten eine andere als „{purpose}“ einstellen</translation>
    </message>
    <message>
        <source>allow value entry in a field there, or remove the action</source>
        <translation>dort in einem Feld die Eingabe zulassen oder die Aktion entfernen</translation>
    </message>
    <message>
        <source>allow writing of the signal, or switch “Entry” off in the field</source>
        <translation>das Schreiben des Signals zulassen oder „Eingabe“ im Feld abschalten</translation>
    </message>
    <message>
        <source>allow writing of the signal, or use another one</source>
        <translation>das Schreiben des Signals zulassen oder ein anderes verwenden</translation>
    </message>
    <message>
        <source>allow writing, or leave “Write interval” blank</source>
        <translation>das Schreiben zulassen oder „Schreibintervall“ leer lassen</translation>
    </message>
    <message>
        <source>an error cannot be accepted: the panel cannot work as designed</source>
        <translation>ein Fehler kann nicht akzeptiert werden: Das Panel kann so nicht arbeiten</translation>
    </message>
    <message>
        <source>bit {number} has no meaning in the control word of the simulated drive</source>
        <translation>Bit {number} hat im Steuerwort des simulierten Antriebs keine Bedeutung</translation>
    </message>
    <message>
        <source>bit {number} has no meaning in the status word of the simulated drive</source>
        <translation>Bit {number} hat im Statuswort des simulierten Antriebs keine Bedeutung</translation>
    </message>
    <message>
        <source>bit {number} of {signal}: {reason}</source>
        <translation>Bit {number} von {signal}: {reason}</translation>
    </message>
    <message>
        <source>bits are numbered from 0, the least significant</source>
        <translation>Bits werden ab 0 gezählt; 0 ist das niederwertigste</translation>
    </message>
    <message>
        <source>change it to a number field</source>
        <translation>in ein Zahlenfeld ändern</translation>
    </message>
    <message>
        <source>check both in the manual; probably a register or a data type is wrong</source>
        <translation>beide im Handbuch prüfen; wahrscheinlich ist ein Register oder ein Datentyp falsch</translation>
    </message>
    <message>
        <source>check the manual of device {follower}; its numbering is set to &apos;{numbering}&apos;</source>
        <translation>im Handbuch von Gerät {follower} prüfen; seine Zählweise ist auf „{numbering}“ eingestellt</translation>
    </message>
    <message>
        <source>choose a signal that is a number</source>
        <translation>ein Signal wählen, das eine Zahl ist</translation>
    </message>
    <message>
        <source>choose a signal that is a number: 0 is the first language</source>
        <translation>ein Signal wählen, das eine Zahl ist: 0 ist die erste Sprache</translation>
    </message>
    <message>
        <source>choose another screen, or delete the screen change</source>
        <translation>ein anderes Bild wählen oder den Bildwechsel löschen</translation>
    </message>
    <message>
        <source>choose another “Cancel key” of the panel</source>
        <translation>eine andere „Taste Abbrechen“ des Panels wählen</translation>
    </message>
    <message>
        <source>choose that language above the panel and write it there</source>
        <translation>diese Sprache über dem Panel wählen und dort schreiben</translation>
    </message>
    <message>
        <source>choose two different keys as “Increase key” and “Decrease key” of the panel</source>
        <translation>als „Taste Erhöhen“ und „Taste Verringern“ des Panels zwei verschiedene wählen</translation>
    </message>
    <message>
        <source>clear that text, or move the field</source>
        <translation>diesen Text löschen oder das Feld verschieben</translation>
    </message>
    <message>
        <source>correct one of the conditions, or remove one of the screen changes</source>
        <translation>eine der Bedingungen berichtigen oder einen der Bildwechsel entfernen</translation>
    </message>
    <message>
        <source>correct the limit of the device, or read a shorter value</source>
        <translation>die Grenze des Geräts berichtigen oder einen kürzeren Wert lesen</translation>
    </message>
    <message>
        <source>correct the range (“Never read”); it uses the numbering of the device&apos;s manual</source>
        <translation>den Bereich („Nie lesen“) berichtigen; es gilt die Zählweise des Handbuchs</translation>
    </message>
    <message>
        <source>correct the register or the data type</source>
        <translation>Register oder Datentyp berichtigen</translation>
    </message>
    <message>
        <source>correct the value of the condition or the scale of the signal</source>
        <translation>den Wert der Bedingung oder die Skalierung des Signals berichtigen</translation>
    </message>
    <message>
        <source>correct the value, the limits or the signal of the action</source>
        <translation>den Wert, die Grenzen oder das Signal der Aktion berichtigen</translation>
    </message>
    <message>
        <source>delete one of the two, or choose another key or another screen for it</source>
        <translation>eine der beiden löschen oder für sie eine andere Taste oder ein anderes Bild wählen</translation>
    </message>
    <message>
        <source>delete one of the two, or choose different screens for them</source>
        <translation>einen der beiden löschen oder für sie verschiedene Bilder wählen</translation>
    </message>
    <message>
        <source>do not allow writing, or correct the functions that the device offers (“Writes with”)</source>
        <translation>das Schreiben nicht zulassen oder die Funktionen berichtigen, die das Gerät anbietet („Schreibt mit“)</translation>
    </message>
    <message>
        <source>do not allow writing, or use the table &apos;{table}&apos; if the device has it there</source>
        <translation>das Schreiben nicht zulassen oder die Tabelle „{table}“ verwenden, falls das Gerät es dort hat</translation>
    </message>
    <message>
        <source>do not let the operator change it in this field (“Entry”)</source>
        <translation>den Bediener es in diesem Feld nicht ändern lassen („Eingabe“)</translation>
    </message>
    <message>
        <source>do not mark the one that starts as a stop</source>
        <translation>die Aktion, die startet, nicht als Stopp kennzeichnen</translation>
    </message>
    <message>
        <source>enter the name or IP address set at the device or converter</source>
        <translation>den Namen oder die IP-Adresse eintragen, die am Gerät oder am Umsetzer eingestellt ist</translation>
    </message>
    <message>
        <source>every device on a line needs its own unit address</source>
        <translation>jedes Gerät einer Leitung braucht eine eigene Geräteadresse</translation>
    </message>
    <message>
        <source>field {number} of screen {screen} has no room for these texts</source>
        <translation>Feld {number} von Bild {screen} hat keinen Platz für diese Texte</translation>
    </message>
    <message>
        <source>give its signals a “Role” in the drive</source>
        <translation>seinen Signalen eine „Rolle“ im Antrieb geben</translation>
    </message>
    <message>
        <source>give the signal “Texts”, or make it a number field</source>
        <translation>dem Signal „Texte“ geben oder ein Zahlenfeld daraus machen</translation>
    </message>
    <message>
        <source>give them a place on the panel, or delete this</source>
        <translation>ihnen einen Platz auf dem Panel geben oder dies löschen</translation>
    </message>
    <message>
        <source>give them something to do, or leave them out of the panel&apos;s keys</source>
        <translation>ihnen eine Wirkung geben oder sie aus den Tasten des Panels entfernen</translation>
    </message>
    <message>
        <source>it cannot be reached from the start screen {screen}</source>
        <translation>vom Startbild {screen} aus nicht erreichbar</translation>
    </message>
    <message>
        <source>it covers {cells} of the field of {signal} on row {row}</source>
        <translation>verdeckt {cells} des Feldes von {signal} in Zeile {row}</translation>
    </message>
    <message>
        <source>it does &apos;{deed}&apos; on {signal}, which is read-only</source>
        <translation>führt „{deed}“ mit {signal} aus, das nur lesbar ist</translation>
    </message>
    <message>
        <source>it goes from {screen} to the same screen, so nothing happens</source>
        <translation>führt von {screen} auf dasselbe Bild, ohne Wirkung</translation>
    </message>
    <message>
        <source>it has a length of {length} registers but is not a string; the length has no effect</source>
        <translation>hat eine Länge von {length} Registern, ist aber kein String; die Länge hat keine Wirkung</translation>
    </message>
    <message>
        <source>it has no devices</source>
        <translation>hat keine Geräte</translation>
    </message>
    <message>
        <source>it has no screen yet</source>
        <translation>hat noch kein Bild</translation>
    </message>
    <message>
        <source>it has no signal yet</source>
        <translation>hat noch kein Signal</translation>
    </message>
    <message>
        <source>it has no signals</source>
        <translation>hat keine Signale</translation>
    </message>
    <message>
        <source>it has one register; its word order has no effect</source>
        <translation>hat nur ein Register; die Wortreihenfolge hat keine Wirkung</translation>
    </message>
    <message>
        <source>it is a single bit; its scale has no effect</source>
        <translation>ist ein einzelnes Bit; die Skalierung hat keine Wirkung</translation>
    </message>
    <message>
        <source>it is a single bit; its word order has no effect</source>
        <translation>ist ein einzelnes Bit; die Wortreihenfolge hat keine Wirkung</translation>
    </message>
    <message>
        <source>it is a string without a length</source>
        <translation>ist ein String ohne Länge</translation>
    </message>
    <message>
        <source>it is a text, read from its first register on; its word order has no effect</source>
        <translation>ist ein Text, gelesen ab dem ersten Register; die Wortreihenfolge hat keine Wirkung</translation>
    </message>
    <message>
        <source>it is a text; its scale has no effect</source>
        <translation>ist ein Text; die Skalierung hat keine Wirkung</translation>
    </message>
    <message>
        <source>it is in registers that are never read from device {follower} (“Never read”)</source>
        <translation>liegt in Registern, die von Gerät {follower} nie gelesen werden („Nie lesen“)</translation>
    </message>
    <message>
        <source>it is marked as a stop, but sets {signal} to {value}</source>
        <translation>ist als Stopp gekennzeichnet, setzt {signal} aber auf {value}</translation>
    </message>
    <message>
        <source>it is not a whole number in registers and cannot be shown in hexadecimal</source>
        <translation>ist keine ganze Zahl in Registern und kann nicht hexadezimal angezeigt werden</translation>
    </message>
    <message>
        <source>it is not used</source>
        <translation>wird nicht verwendet</translation>
    </message>
    <message>
        <source>it is read from the line, but not used</source>
        <translation>wird von der Leitung gelesen, aber nicht verwendet</translation>
    </message>
    <message>
        <source>it is refused: {reason}</source>
        <translation>wird abgelehnt: {reason}</translation>
    </message>
    <message>
        <source>it is set to be written every {every} ms (“Write interval”), but is read-only</source>
        <translation>soll alle {every} ms geschrieben werden („Schreibintervall“), ist aber nur lesbar</translation>
    </message>
    <message>
        <source>it is writable, but the table &apos;{table}&apos; is read-only</source>
        <translation>soll geschrieben werden, aber die Tabelle „{table}“ ist nur lesbar</translation>
    </message>
    <message>
        <source>it is written every {every} ms (“Write interval”), but its device stops after {limit} ms</source>
        <translation>wird alle {every} ms geschrieben („Schreibintervall“), aber das Gerät stoppt nach {limit} ms</translation>
    </message>
    <message>
        <source>it overlaps registers of {signal}: {second} against {first}</source>
        <translation>überlappt Register von {signal}: {second} gegen {first}</translation>
    </message>
    <message>
        <source>it shows the next language, but the panel has only one</source>
        <translation>soll die nächste Sprache zeigen, aber das Panel hat nur eine</translation>
    </message>
    <message>
        <source>it starts entry of {signal}, but none of its screens has a field that allows it</source>
        <translation>startet die Eingabe von {signal}, aber keines der betroffenen Bilder hat dafür ein Feld mit Eingabe</translation>
    </message>
    <message>
        <source>it starts value entry, but none of its screens has a field that allows entry</source>
        <translation>startet eine Eingabe, aber keines der betroffenen Bilder hat ein Feld mit Eingabe</translation>
    </message>
    <message>
        <source>it stops by itself after {limit} ms without a request, but its signals are only read every {every} ms</source>
        <translation>stoppt von selbst nach {limit} ms ohne Anfrage, aber seine Signale werden nur alle {every} ms gelesen</translation>
    </message>
    <message>
        <source>it takes {count} registers, but device {follower} answers at most {most} per read (“Registers per read”)</source>
        <translation>belegt {count} Register, aber Gerät {follower} liefert höchstens {most} je Anfrage („Register je Anfrage“)</translation>
    </message>
    <message>
        <source>it uses {device} port {port}, like line {line}</source>
        <translation>benutzt {device} Port {port}, wie Leitung {line}</translation>
    </message>
    <message>
        <source>it uses {device}, like line {line}</source>
        <translation>benutzt {device}, wie Leitung {line}</translation>
    </message>
    <message>
        <source>its address is not set yet: {host} is only a placeholder</source>
        <translation>die Adresse ist noch nicht eingestellt: {host} ist nur ein Platzhalter</translation>
    </message>
    <message>
        <source>its condition is the same as that of screen change {number}, so {shown} is shown and {hidden} never is</source>
        <translation>die Bedingung ist dieselbe wie bei Bildwechsel {number}: {shown} wird gezeigt, {hidden} nie</translation>
    </message>
    <message>
        <source>its condition uses {signal}, a text, which can be neither set nor compared</source>
        <translation>die Bedingung verwendet {signal}, einen Text, der weder gesetzt sein noch verglichen werden kann</translation>
    </message>
    <message>
        <source>its condition, {condition}, is always true: the signal is {low} to {high}</source>
        <translation>die Bedingung, dass {condition}, ist immer erfüllt: das Signal ist {low} bis {high}</translation>
    </message>
    <message>
        <source>its condition, {condition}, is never true: the signal is {low} to {high}</source>
        <translation>die Bedingung, dass {condition}, ist nie erfüllt: das Signal ist {low} bis {high}</translation>
    </message>
    <message>
        <source>its fields allow entry, but its begin key {key} is used by action {number}</source>
        <translation>die Felder lassen Eingabe zu, aber die Taste {key} für den Beginn ist von Aktion {number} belegt</translation>
    </message>
    <message>
        <source>its fields allow entry, but its begin key {key} is used by screen change {number}</source>
        <translation>die Felder lassen Eingabe zu, aber die Taste {key} für den Beginn ist von Bildwechsel {number} belegt</translation>
    </message>
    <message>
        <source>its role in the simulated drive ({role}) has no effect: the drive is controlled by {signal}</source>
        <translation>seine Rolle im simulierten Antrieb ({role}) ist wirkungslos: Der Antrieb wird über {signal} gesteuert</translation>
    </message>
    <message>
        <source>its start value {first} is outside its limits {low} to {high}</source>
        <translation>der Startwert {first} liegt außerhalb der Grenzen {low} bis {high}</translation>
    </message>
    <message>
        <source>its start value {value} does not fit: {reason}</source>
        <translation>der Startwert {value} passt nicht: {reason}</translation>
    </message>
    <message>
        <source>its text is not translated into {language}</source>
        <translation>sein Text ist nicht nach {language} übersetzt</translation>
    </message>
    <message>
        <source>its text {text} is not translated into {language}</source>
        <translation>sein Text {text} ist nicht nach {language} übersetzt</translation>
    </message>
    <message>
        <source>its {count} registers starting at address {address} (0-based) end beyond {last}</source>
        <translation>die {count} Register ab Adresse {address} (ab 0 gezählt) enden hinter {last}</translation>
    </message>
    <message>
        <source>keep the limits of {held} within those of {signal}</source>
        <translation>die Grenzen von {held} innerhalb der Grenzen von {signal} halten</translation>
    </message>
    <message>
        <source>key {key} already does &apos;{first}&apos; on {signal} (action {number}); this one does &apos;{second}&apos; on the same signal right after it</source>
        <translation>Taste {key} führt schon „{first}“ mit {signal} aus (Aktion {number}); diese führt gleich danach „{second}“ mit demselben Signal aus</translation>
    </message>
    <message>
        <source>key {key} already does &apos;{first}&apos; on {signal} (action {number}); this one does &apos;{second}&apos; on {other} right after it</source>
        <translation>Taste {key} führt schon „{first}“ mit {signal} aus (Aktion {number}); diese führt gleich danach „{second}“ mit {other} aus</translation>
    </message>
    <message>
        <source>key {key} already goes to {screen} on every screen (screen change {number})</source>
        <translation>Taste {key} wechselt auf jedem Bild schon zu {screen} (Bildwechsel {number})</translation>
    </message>
    <message>
        <source>key {key} already goes to {screen} on screen {source} (screen change {number})</source>
        <translation>Taste {key} wechselt auf Bild {source} schon zu {screen} (Bildwechsel {number})</translation>
    </message>
    <message>
        <source>key {key} also changes the screen (screen change {number}), which ends the action at once</source>
        <translation>Taste {key} wechselt auch das Bild (Bildwechsel {number}), was die Aktion sofort beendet</translation>
    </message>
    <message>
        <source>key {key} cancels an entry, but also does something else during entry</source>
        <translation>Taste {key} bricht eine Eingabe ab, hat dabei aber noch eine andere Funktion</translation>
    </message>
    <message>
        <source>key {key} is set both to increase and to decrease a value</source>
        <translation>Taste {key} ist zum Erhöhen und zum Verringern eingestellt</translation>
    </message>
    <message>
        <source>key {key} stops {signal}, but the command is sent only once: if it is lost, nothing stops</source>
        <translation>Taste {key} stoppt {signal}, aber der Befehl wird nur einmal gesendet: geht er verloren, stoppt nichts</translation>
    </message>
    <message>
        <source>key {key} switches {signal} on, but no key switches it off again</source>
        <translation>Taste {key} schaltet {signal} ein, aber keine Taste schaltet es wieder aus</translation>
    </message>
    <message>
        <source>let a key show the next language, or choose the signal that selects it</source>
        <translation>eine Taste für die nächste Sprache anlegen oder das Signal angeben, das die Sprache wählt</translation>
    </message>
    <message>
        <source>make the field wider or shorten the text</source>
        <translation>das Feld verbreitern oder den Text kürzen</translation>
    </message>
    <message>
        <source>make the field {cells} wide</source>
        <translation>das Feld auf {cells} verbreitern</translation>
    </message>
    <message>
        <source>make the field {cells} wide or shorten the text</source>
        <translation>das Feld auf {cells} verbreitern oder den Text kürzen</translation>
    </message>
    <message>
        <source>make the field {cells} wide, or read fewer registers (“Length”)</source>
        <translation>das Feld auf {cells} verbreitern oder weniger Register lesen („Länge“)</translation>
    </message>
    <message>
        <source>make the field {cells} wide, or show fewer decimals</source>
        <translation>das Feld auf {cells} verbreitern oder weniger Nachkommastellen zeigen</translation>
    </message>
    <message>
        <source>make the signal that selects the language writable, or remove the action</source>
        <translation>das Schreiben des sprachwählenden Signals zulassen oder die Aktion entfernen</translation>
    </message>
    <message>
        <source>make the stop act on every screen</source>
        <translation>den Stopp auf jedem Bild wirken lassen</translation>
    </message>
    <message>
        <source>mark it as a stop: it is then repeated until confirmed</source>
        <translation>als Stopp kennzeichnen: dann wird er bis zur Bestätigung wiederholt</translation>
    </message>
    <message>
        <source>move it up or to another screen</source>
        <translation>nach oben oder auf ein anderes Bild verschieben</translation>
    </message>
    <message>
        <source>move one of them or make it narrower</source>
        <translation>eines davon verschieben oder schmaler machen</translation>
    </message>
    <message>
        <source>move the field</source>
        <translation>das Feld verschieben</translation>
    </message>
    <message>
        <source>move the field or make it narrower</source>
        <translation>das Feld verschieben oder schmaler machen</translation>
    </message>
    <message>
        <source>narrow the limits</source>
        <translation>die Grenzen einschränken</translation>
    </message>
    <message>
        <source>narrow the limits, or use the data type and scale given in the device&apos;s manual</source>
        <translation>die Grenzen einschränken oder Datentyp und Skalierung nach dem Handbuch des Geräts verwenden</translation>
    </message>
    <message>
        <source>never-read range: {reason}</source>
        <translation>nie gelesener Bereich: {reason}</translation>
    </message>
    <message>
        <source>no screen shows a signal yet</source>
        <translation>bisher zeigt kein Bild ein Signal</translation>
    </message>
    <message>
        <source>none of its signals has a role in the simulated drive, so the drive will not run</source>
        <translation>keines seiner Signale hat eine Rolle im simulierten Antrieb; dieser läuft deshalb nicht</translation>
    </message>
    <message>
        <source>nothing selects the language, so only {language} is shown</source>
        <translation>nichts wählt die Sprache, deshalb wird nur {language} gezeigt</translation>
    </message>
    <message>
        <source>once written, it is rewritten automatically every {every} ms (“Write interval”)</source>
        <translation>nach dem ersten Schreiben wird es automatisch alle {every} ms neu geschrieben („Schreibintervall“)</translation>
    </message>
    <message>
        <source>place a field on a screen</source>
        <translation>ein Feld auf einem Bild platzieren</translation>
    </message>
    <message>
        <source>put the devices of both on one line, or use another port or host</source>
        <translation>die Geräte beider an eine Leitung legen oder einen anderen Anschluss oder Host verwenden</translation>
    </message>
    <message>
        <source>read one of them more often: “Poll interval” {every} ms, for example</source>
        <translation>eines davon öfter lesen, zum Beispiel „Abfrageintervall“ {every} ms</translation>
    </message>
    <message>
        <source>read {signal} as uint16 or uint32</source>
        <translation>{signal} als uint16 oder uint32 lesen</translation>
    </message>
    <message>
        <source>remove it; this message has no value</source>
        <translation>entfernen; diese Meldung hat keinen Wert</translation>
    </message>
    <message>
        <source>remove its own “Word order”</source>
        <translation>die eigene „Wortreihenfolge“ entfernen</translation>
    </message>
    <message>
        <source>remove one of the two, or use another key</source>
        <translation>einen der beiden entfernen oder eine andere Taste verwenden</translation>
    </message>
    <message>
        <source>remove the signal, or correct the range</source>
        <translation>das Signal entfernen oder den Bereich berichtigen</translation>
    </message>
    <message>
        <source>remove the “Length”, or choose the “Data type” string</source>
        <translation>die „Länge“ entfernen oder den „Datentyp“ string wählen</translation>
    </message>
    <message>
        <source>remove the “Scale”</source>
        <translation>die „Skalierung“ entfernen</translation>
    </message>
    <message>
        <source>remove this “Role”, or that of {signal}</source>
        <translation>diese „Rolle“ oder die von {signal} entfernen</translation>
    </message>
    <message>
        <source>screen change {number} already goes to {screen} after {seconds} s, so this one never happens</source>
        <translation>Bildwechsel {number} führt schon nach {seconds} s zu {screen}, deshalb kommt dieser nie</translation>
    </message>
    <message>
        <source>screen {screens}</source>
        <translation>Bild {screens}</translation>
    </message>
    <message>
        <source>screen {screens} and {count} more</source>
        <translation>Bild {screens} und {count} weitere</translation>
    </message>
    <message>
        <source>set a range with two different ends</source>
        <translation>einen Bereich mit zwei verschiedenen Enden angeben</translation>
    </message>
    <message>
        <source>set a start value within the limits</source>
        <translation>einen Startwert innerhalb der Grenzen angeben</translation>
    </message>
    <message>
        <source>set limits for the values to expect</source>
        <translation>Grenzen für die zu erwartenden Werte angeben</translation>
    </message>
    <message>
        <source>set limits that are safe for the machine</source>
        <translation>Grenzen angeben, die für die Maschine zulässig sind</translation>
    </message>
    <message>
        <source>set the device&apos;s own “Communication time-out” and enter it here; if it has none, do not use a momentary action</source>
        <translation>den Kommunikations-Timeout des Geräts („Komm.-Timeout“) einstellen und hier eintragen; hat es keinen, keine Tastfunktion verwenden</translation>
    </message>
    <message>
        <source>set the number of registers (“Length”), two characters each: 8 for 16 characters</source>
        <translation>die Anzahl der Register („Länge“) angeben, je zwei Zeichen: 8 für 16 Zeichen</translation>
    </message>
    <message>
        <source>set the step to {size} or more</source>
        <translation>die Schrittweite auf {size} oder mehr setzen</translation>
    </message>
    <message>
        <source>set the “Bar range” of the field</source>
        <translation>den „Balkenbereich“ des Feldes angeben</translation>
    </message>
    <message>
        <source>shorten it</source>
        <translation>kürzen</translation>
    </message>
    <message>
        <source>shorten the text</source>
        <translation>den Text kürzen</translation>
    </message>
    <message>
        <source>show it on a screen, or remove it</source>
        <translation>es auf einem Bild zeigen oder entfernen</translation>
    </message>
    <message>
        <source>show more decimals, or use a coarser step</source>
        <translation>mehr Nachkommastellen zeigen oder eine gröbere Schrittweite verwenden</translation>
    </message>
    <message>
        <source>signal {signal} no longer exists</source>
        <translation>das Signal {signal} gibt es nicht mehr</translation>
    </message>
    <message>
        <source>switch “Hexadecimal” off</source>
        <translation>„Hexadezimal“ abschalten</translation>
    </message>
    <message>
        <source>the bar of {signal} has no range: the field has no range and the signal has no limits</source>
        <translation>der Balken von {signal} hat keinen Bereich: weder Bereich beim Feld noch Grenzen beim Signal</translation>
    </message>
    <message>
        <source>the bar of {signal} is empty and full at the same value, {value}</source>
        <translation>der Balken von {signal} ist leer und voll beim selben Wert {value}</translation>
    </message>
    <message>
        <source>the cells needed for this are no longer free</source>
        <translation>die dafür nötigen Zellen sind nicht mehr frei</translation>
    </message>
    <message>
        <source>the cells that are to blink lie outside the panel</source>
        <translation>die Zellen, die blinken sollen, liegen außerhalb des Panels</translation>
    </message>
    <message>
        <source>the field allows entry, but both limits of {signal} are {limit}</source>
        <translation>das Feld erlaubt Eingabe, aber beide Grenzen von {signal} sind {limit}</translation>
    </message>
    <message>
        <source>the field allows entry, but {signal} has no limits</source>
        <translation>das Feld erlaubt Eingabe, aber {signal} hat keine Grenzen</translation>
    </message>
    <message>
        <source>the field allows entry, but {signal} is read-only</source>
        <translation>das Feld lässt Eingabe zu, aber {signal} ist nur lesbar</translation>
    </message>
    <message>
        <source>the field of {signal} hides the text {text}</source>
        <translation>das Feld von {signal} verdeckt den Text {text}</translation>
    </message>
    <message>
        <source>the field of {signal} hides {text}</source>
        <translation>das Feld von {signal} verdeckt {text}</translation>
    </message>
    <message>
        <source>the field of {signal} is on row {row}; the panel has the rows 0 to {last}</source>
        <translation>das Feld von {signal} liegt in Zeile {row}; das Panel hat die Zeilen 0 bis {last}</translation>
    </message>
    <message>
        <source>the field of {signal} takes the columns {first} to {end}; the panel has 0 to {last}</source>
        <translation>das Feld von {signal} belegt die Spalten {first} bis {end}; das Panel hat 0 bis {last}</translation>
    </message>
    <message>
        <source>the limits are {low} to {high}, but a single bit can hold only {least} to {most}</source>
        <translation>die Grenzen sind {low} bis {high}, aber ein einzelnes Bit kann nur {least} bis {most} sein</translation>
    </message>
    <message>
        <source>the limits are {low} to {high}, but {encoding} can hold only {least} to {most}</source>
        <translation>die Grenzen sind {low} bis {high}, aber {encoding} reicht nur von {least} bis {most}</translation>
    </message>
    <message>
        <source>the limits are {low} to {high}, but {encoding} with this scale can hold only {least} to {most}</source>
        <translation>die Grenzen sind {low} bis {high}, aber {encoding} reicht mit dieser Skalierung nur von {least} bis {most}</translation>
    </message>
    <message>
        <source>the panel&apos;s own messages are not written in {language}</source>
        <translation>die eigenen Meldungen des Panels gibt es nicht auf {language}</translation>
    </message>
    <message>
        <source>the signal is {low} to {high}: correct the number or remove it</source>
        <translation>das Signal ist {low} bis {high}: die Zahl berichtigen oder entfernen</translation>
    </message>
    <message>
        <source>the step of {signal} is {step}, but its limits are only {apart} apart</source>
        <translation>die Schrittweite von {signal} ist {step}, aber seine Grenzen liegen nur {apart} auseinander</translation>
    </message>
    <message>
        <source>the step {step} is finer than one raw count, which is {size}</source>
        <translation>die Schrittweite {step} ist feiner als ein Rohschritt ({size})</translation>
    </message>
    <message>
        <source>the text contains {characters}, missing in the panel&apos;s character set &apos;{repertoire}&apos;; &apos;?&apos; would be shown</source>
        <translation>der Text enthält {characters}; das fehlt im Zeichensatz „{repertoire}“ des Panels, gezeigt würde „?“</translation>
    </message>
    <message>
        <source>the text has {count} characters, the panel {columns} columns: {lost} is lost</source>
        <translation>der Text hat {count} Zeichen, das Panel {columns} Spalten: {lost} geht verloren</translation>
    </message>
    <message>
        <source>the text {text} for {value} contains {characters}, missing in the panel&apos;s character set &apos;{repertoire}&apos;; &apos;?&apos; would be shown</source>
        <translation>der Text {text} für {value} enthält {characters}; das fehlt im Zeichensatz „{repertoire}“ des Panels, gezeigt würde „?“</translation>
    </message>
    <message>
        <source>the text {text} is for {value}, which the signal can never have</source>
        <translation>der Text {text} ist für {value}, einen Wert, den das Signal nie hat</translation>
    </message>
    <message>
        <source>the unit {unit} contains {characters}, missing in the panel&apos;s character set &apos;{repertoire}&apos;; &apos;?&apos; would be shown</source>
        <translation>die Einheit {unit} enthält {characters}; das fehlt im Zeichensatz „{repertoire}“ des Panels, gezeigt würde „?“</translation>
    </message>
    <message>
        <source>there are fields with entry, but there is no key {key} to cancel an entry</source>
        <translation>es gibt Felder mit Eingabe, aber keine Taste {key}, um eine Eingabe abzubrechen</translation>
    </message>
    <message>
        <source>there are fields with entry, but there is no key {key} to confirm an entry</source>
        <translation>es gibt Felder mit Eingabe, aber keine Taste {key}, um eine Eingabe zu bestätigen</translation>
    </message>
    <message>
        <source>there are fields with entry, but there is no key {key} to decrease the value</source>
        <translation>es gibt Felder mit Eingabe, aber keine Taste {key}, um den Wert zu verringern</translation>
    </message>
    <message>
        <source>there are fields with entry, but there is no key {key} to increase the value</source>
        <translation>es gibt Felder mit Eingabe, aber keine Taste {key}, um den Wert zu erhöhen</translation>
    </message>
    <message>
        <source>there are fields with entry, but there is no key {key} to start an entry</source>
        <translation>es gibt Felder mit Eingabe, aber keine Taste {key}, um eine Eingabe zu beginnen</translation>
    </message>
    <message>
        <source>there is no way back from it to the start screen {screen}, neither by key nor by idle time</source>
        <translation>von dort führt weder eine Taste noch eine Zeit ohne Bedienung zum Startbild {screen} zurück</translation>
    </message>
    <message>
        <source>these keys do nothing on any screen: {keys}</source>
        <translation>diese Tasten tun auf keinem Bild etwas: {keys}</translation>
    </message>
    <message>
        <source>unit address 0 is the broadcast address of a serial line; no device answers to it</source>
        <translation>Geräteadresse 0 ist an einer seriellen Leitung der Broadcast; darauf antwortet kein Gerät</translation>
    </message>
    <message>
        <source>unit address 255 is for Modbus TCP only; no device on a serial line has it</source>
        <translation>Geräteadresse 255 gibt es nur bei Modbus TCP; kein Gerät einer seriellen Leitung hat sie</translation>
    </message>
    <message>
        <source>unit address {unit} on line {line} is already used by device {follower}</source>
        <translation>Geräteadresse {unit} an Leitung {line} ist schon von Gerät {follower} belegt</translation>
    </message>
    <message>
        <source>use a key instead, or accept this if nobody can be hurt by it</source>
        <translation>stattdessen eine Taste verwenden, oder dies akzeptieren, wenn dadurch niemand zu Schaden kommen kann</translation>
    </message>
    <message>
        <source>use a smaller step</source>
        <translation>eine kleinere Schrittweite verwenden</translation>
    </message>
    <message>
        <source>use a stop key that is not an entry key of the panel</source>
        <translation>eine Stopptaste verwenden, die keine Eingabetaste des Panels ist</translation>
    </message>
    <message>
        <source>use a value that its registers can hold</source>
        <translation>einen Wert angeben, den die Register darstellen können</translation>
    </message>
    <message>
        <source>use another key for that, or start the entry by an action of another key</source>
        <translation>dort eine andere Taste verwenden oder die Eingabe durch eine Aktion einer anderen Taste beginnen</translation>
    </message>
    <message>
        <source>use another key for the screen change or the action</source>
        <translation>für den Bildwechsel oder die Aktion eine andere Taste verwenden</translation>
    </message>
    <message>
        <source>use one of bits {bits}, choose another “Register map”, or give the signals of this device a “Role” in the drive</source>
        <translation>eines der Bits {bits} verwenden, eine andere „Registerbelegung“ wählen oder den Signalen dieses Geräts eine „Rolle“ im Antrieb geben</translation>
    </message>
    <message>
        <source>use other characters; if the real panel can show these, choose its character set: {names}</source>
        <translation>andere Zeichen verwenden; kann das vorhandene Panel diese zeigen, dessen Zeichensatz wählen: {names}</translation>
    </message>
    <message>
        <source>use other characters; no character set has all of these</source>
        <translation>andere Zeichen verwenden; kein Zeichensatz enthält alle diese</translation>
    </message>
    <message>
        <source>use the address set at the device, 1 to 247</source>
        <translation>die am Gerät eingestellte Adresse verwenden, 1 bis 247</translation>
    </message>
    <message>
        <source>use {signal} instead of a bit of it</source>
        <translation>{signal} statt eines Bits davon verwenden</translation>
    </message>
    <message>
        <source>when {condition}: {deed}, automatically and without a key</source>
        <translation>wenn {condition}: {deed}, automatisch und ohne Taste</translation>
    </message>
    <message>
        <source>while {key} is held, {signal} is on; if the line fails then, device {follower} keeps it on, because it has no communication time-out</source>
        <translation>solange {key} gedrückt ist, ist {signal} ein; fällt dann die Leitung aus, lässt Gerät {follower} es ein, denn es hat keinen Kommunikations-Timeout</translation>
    </message>
    <message>
        <source>widen the limits, or remove the text if the value must not be entered</source>
        <translation>die Grenzen erweitern, oder den Text entfernen, falls der Wert nicht eingegeben werden darf</translation>
    </message>
    <message>
        <source>widen the limits, or switch “Entry” off in the field</source>
        <translation>die Grenzen erweitern oder „Eingabe“ im Feld abschalten</translation>
    </message>
    <message>
        <source>write 0, or do not mark it as a stop: what is not a stop must not be repeated automatically</source>
        <translation>0 schreiben oder nicht als Stopp kennzeichnen: was kein Stopp ist, darf nicht automatisch wiederholt werden</translation>
    </message>
    <message>
        <source>write it more often, for example every {every} ms</source>
        <translation>öfter schreiben, zum Beispiel alle {every} ms</translation>
    </message>
    <message>
        <source>write the messages of the panel in that language too</source>
        <translation>die Meldungen des Panels auch in dieser Sprache schreiben</translation>
    </message>
    <message>
        <source>write them in that language too</source>
        <translation>sie auch in dieser Sprache schreiben</translation>
    </message>
    <message>
        <source>write {place} where the value belongs</source>
        <translation>{place} an die Stelle des Wertes schreiben</translation>
    </message>
    <message>
        <source>{count} cell</source>
        <translation>{count} Zelle</translation>
    </message>
    <message>
        <source>{count} cells</source>
        <translation>{count} Zellen</translation>
    </message>
    <message>
        <source>{count} of its texts are not translated into {language}, including {text}</source>
        <translation>{count} seiner Texte sind nicht nach {language} übersetzt, darunter {text}</translation>
    </message>
    <message>
        <source>{count} of the panel&apos;s own messages are not in {language}: {text}</source>
        <translation>{count} der eigenen Meldungen des Panels gibt es nicht auf {language}: {text}</translation>
    </message>
    <message>
        <source>{encoding} at register {register}</source>
        <translation>{encoding} in Register {register}</translation>
    </message>
    <message>
        <source>{encoding} at registers {first} to {last}</source>
        <translation>{encoding} in den Registern {first} bis {last}</translation>
    </message>
    <message>
        <source>{encoding} cannot hold the limit {limit}</source>
        <translation>{encoding} kann die Grenze {limit} nicht darstellen</translation>
    </message>
    <message>
        <source>{held} can be set to {limit}, which {signal} does not accept: {reason}</source>
        <translation>{held} kann auf {limit} gesetzt werden, was {signal} nicht annimmt: {reason}</translation>
    </message>
    <message>
        <source>{place} in {text} is not replaced by a value</source>
        <translation>{place} in {text} wird durch keinen Wert ersetzt</translation>
    </message>
    <message>
        <source>{reason}; it can never be written</source>
        <translation>{reason}; es kann nie geschrieben werden</translation>
    </message>
    <message>
        <source>{signal} can be switched on from {screens}, but no key there switches it off</source>
        <translation>{signal} kann von {screens} aus eingeschaltet werden, aber keine Taste schaltet es dort aus</translation>
    </message>
    <message>
        <source>{signal} can be {value}, but there is no text for it; the number would be shown</source>
        <translation>{signal} kann {value} sein, aber dafür gibt es keinen Text; gezeigt würde die Zahl</translation>
    </message>
    <message>
        <source>{signal} can be {value}, which needs {cells}; the field has {width}</source>
        <translation>{signal} kann {value} sein, was {cells} braucht; das Feld hat {width}</translation>
    </message>
    <message>
        <source>{signal} can have {count} characters, but the field is {cells} wide</source>
        <translation>{signal} kann {count} Zeichen haben, aber das Feld ist nur {cells} breit</translation>
    </message>
    <message>
        <source>{signal} cannot be switched off from {screens}</source>
        <translation>{signal} kann von {screens} aus nicht ausgeschaltet werden</translation>
    </message>
    <message>
        <source>{signal} has no texts to choose from</source>
        <translation>{signal} hat keine Texte zur Auswahl</translation>
    </message>
    <message>
        <source>{signal} in hexadecimal needs {cells}; the field has {width}</source>
        <translation>{signal} braucht hexadezimal {cells}; das Feld hat {width}</translation>
    </message>
    <message>
        <source>{signal} is a float without limits, so no field width is certain to be enough</source>
        <translation>{signal} ist eine Gleitkommazahl ohne Grenzen; keine Feldbreite reicht sicher aus</translation>
    </message>
    <message>
        <source>{signal} is a text and cannot be shown as a bar</source>
        <translation>{signal} ist ein Text und kann nicht als Balken gezeigt werden</translation>
    </message>
    <message>
        <source>{signal} is a text and cannot select the language</source>
        <translation>{signal} ist ein Text und kann die Sprache nicht wählen</translation>
    </message>
    <message>
        <source>{signal} is a text; texts cannot be entered</source>
        <translation>{signal} ist ein Text; Texte können nicht eingegeben werden</translation>
    </message>
    <message>
        <source>{signal} is in the table &apos;{table}&apos; and is one bit itself</source>
        <translation>{signal} liegt in der Tabelle „{table}“ und ist selbst ein Bit</translation>
    </message>
    <message>
        <source>{signal} is not a whole number in registers, so it is shown in decimal</source>
        <translation>{signal} ist keine ganze Zahl in Registern und wird deshalb dezimal gezeigt</translation>
    </message>
    <message>
        <source>{signal} is set as a stop here, and cleared as a stop elsewhere: one of them starts</source>
        <translation>{signal} wird hier als Stopp gesetzt und anderswo als Stopp gelöscht: eines von beiden startet</translation>
    </message>
    <message>
        <source>{signal} is shown in hexadecimal, but entered in decimal</source>
        <translation>{signal} wird hexadezimal gezeigt, aber dezimal eingegeben</translation>
    </message>
    <message>
        <source>{signal} is switched off by {key}, but not during value entry, because it is an entry key</source>
        <translation>{signal} wird mit {key} ausgeschaltet, aber nicht während einer Eingabe, weil sie dort Eingabetaste ist</translation>
    </message>
    <message>
        <source>{text} ({value}) is outside the limits of {signal} and cannot be chosen</source>
        <translation>{text} ({value}) liegt außerhalb der Grenzen von {signal} und kann nicht gewählt werden</translation>
    </message>
    <message>
        <source>{text} contains {characters}, missing in the panel&apos;s character set {repertoire}; &apos;?&apos; would be shown</source>
        <translation>{text} enthält {characters}; das fehlt im Zeichensatz {repertoire} des Panels, gezeigt würde „?“</translation>
    </message>
    <message>
        <source>{text} contains {characters}, missing in the panel&apos;s character set {repertoire}; it shows {shown}</source>
        <translation>{text} enthält {characters}; das fehlt im Zeichensatz {repertoire} des Panels, gezeigt wird {shown}</translation>
    </message>
    <message>
        <source>{text} has no translation in {language}</source>
        <translation>{text} hat keine Übersetzung auf {language}</translation>
    </message>
    <message>
        <source>{text} is below the last of the panel&apos;s {rows} rows</source>
        <translation>{text} liegt unter der letzten der {rows} Zeilen des Panels</translation>
    </message>
    <message>
        <source>{text} needs {rows} rows of {columns} cells, but only {room} are guaranteed for a message</source>
        <translation>{text} braucht {rows} Zeilen zu {columns} Zellen, aber garantiert sind einer Meldung nur {room}</translation>
    </message>
    <message>
        <source>{text}, the text of {signal} for {value}, has {count} characters, but the field is {cells} wide</source>
        <translation>{text}, der Text von {signal} für {value}, hat {count} Zeichen, aber das Feld ist nur {cells} breit</translation>
    </message>
    <message>
        <source>{text}, the {language} text of {signal} for {value}, has {count} characters, but the field is {width} wide</source>
        <translation>{text}, der Text von {signal} für {value} auf {language}, hat {count} Zeichen, aber das Feld ist nur {width} breit</translation>
    </message>
</context>
<context>
    <name>comparison</name>
    <message>
        <source>action added: {after}</source>
        <translation>Aktion hinzugefügt: {after}</translation>
    </message>
    <message>
        <source>action modified: {before}</source>
        <translation>Aktion geändert: {before}</translation>
    </message>
    <message>
        <source>action removed: {before}</source>
        <translation>Aktion entfernt: {before}</translation>
    </message>
    <message>
        <source>device {after} added</source>
        <translation>Gerät {after} hinzugefügt</translation>
    </message>
    <message>
        <source>device {after} modified</source>
        <translation>Gerät {after} geändert</translation>
    </message>
    <message>
        <source>device {before} removed</source>
        <translation>Gerät {before} entfernt</translation>
    </message>
    <message>
        <source>device {before} renamed to {after}</source>
        <translation>Gerät {before} in {after} umbenannt</translation>
    </message>
    <message>
        <source>differences in {parts}</source>
        <translation>Unterschiede: {parts}</translation>
    </message>
    <message>
        <source>field added: {after}</source>
        <translation>Feld hinzugefügt: {after}</translation>
    </message>
    <message>
        <source>field modified: {before}</source>
        <translation>Feld geändert: {before}</translation>
    </message>
    <message>
        <source>field removed: {before}</source>
        <translation>Feld entfernt: {before}</translation>
    </message>
    <message>
        <source>line {after} added</source>
        <translation>Leitung {after} hinzugefügt</translation>
    </message>
    <message>
        <source>line {after} modified</source>
        <translation>Leitung {after} geändert</translation>
    </message>
    <message>
        <source>line {before} removed</source>
        <translation>Leitung {before} entfernt</translation>
    </message>
    <message>
        <source>line {before} renamed to {after}</source>
        <translation>Leitung {before} in {after} umbenannt</translation>
    </message>
    <message>
        <source>lines and devices: {count}</source>
        <translation>Leitungen und Geräte: {count}</translation>
    </message>
    <message>
        <source>no differences</source>
        <translation>keine Unterschiede</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>nichts</translation>
    </message>
    <message>
        <source>order modified: {count}</source>
        <translation>Reihenfolge geändert: {count}</translation>
    </message>
    <message>
        <source>order of actions modified</source>
        <translation>Reihenfolge der Aktionen geändert</translation>
    </message>
    <message>
        <source>order of devices modified</source>
        <translation>Reihenfolge der Geräte geändert</translation>
    </message>
    <message>
        <source>order of fields modified: {before}, now {after}</source>
        <translation>Reihenfolge der Felder geändert: {before}, jetzt {after}</translation>
    </message>
    <message>
        <source>order of lines modified</source>
        <translation>Reihenfolge der Leitungen geändert</translation>
    </message>
    <message>
        <source>order of screen changes modified</source>
        <translation>Reihenfolge der Bildwechsel geändert</translation>
    </message>
    <message>
        <source>order of screens modified</source>
        <translation>Reihenfolge der Bilder geändert</translation>
    </message>
    <message>
        <source>order of signals modified</source>
        <translation>Reihenfolge der Signale geändert</translation>
    </message>
    <message>
        <source>panel and project: {count}</source>
        <translation>Panel und Projekt: {count}</translation>
    </message>
    <message>
        <source>panel modified</source>
        <translation>Panel geändert</translation>
    </message>
    <message>
        <source>project modified</source>
        <translation>Projekt geändert</translation>
    </message>
    <message>
        <source>screen change added: {after}</source>
        <translation>Bildwechsel hinzugefügt: {after}</translation>
    </message>
    <message>
        <source>screen change modified: {before}</source>
        <translation>Bildwechsel geändert: {before}</translation>
    </message>
    <message>
        <source>screen change removed: {before}</source>
        <translation>Bildwechsel entfernt: {before}</translation>
    </message>
    <message>
        <source>screen changes and actions: {count}</source>
        <translation>Bildwechsel und Aktionen: {count}</translation>
    </message>
    <message>
        <source>screen {after} added</source>
        <translation>Bild {after} hinzugefügt</translation>
    </message>
    <message>
        <source>screen {after} modified</source>
        <translation>Bild {after} geändert</translation>
    </message>
    <message>
        <source>screen {before} removed</source>
        <translation>Bild {before} entfernt</translation>
    </message>
    <message>
        <source>screen {before} renamed to {after}</source>
        <translation>Bild {before} in {after} umbenannt</translation>
    </message>
    <message>
        <source>screens: {count}</source>
        <translation>Bilder: {count}</translation>
    </message>
    <message>
        <source>signal {after} added</source>
        <translation>Signal {after} hinzugefügt</translation>
    </message>
    <message>
        <source>signal {after} modified</source>
        <translation>Signal {after} geändert</translation>
    </message>
    <message>
        <source>signal {before} removed</source>
        <translation>Signal {before} entfernt</translation>
    </message>
    <message>
        <source>signal {before} renamed to {after}</source>
        <translation>Signal {before} in {after} umbenannt</translation>
    </message>
    <message>
        <source>signals: {count}</source>
        <translation>Signale: {count}</translation>
    </message>
    <message>
        <source>{key}, row {number}</source>
        <translation>{key}, Zeile {number}</translation>
    </message>
    <message>
        <source>{key}: {before} -&gt; {after}</source>
        <translation>{key}: {before} -&gt; {after}</translation>
    </message>
</context>
<context>
    <name>discovery</name>
    <message>
        <source>All signals of {device} that this order is for ({count}) are read the other way.</source>
        <translation>Alle Signale von {device}, für die diese Reihenfolge gilt ({count}), werden andersherum gelesen.</translation>
    </message>
    <message>
        <source>Byte order of the device</source>
        <translation>Byte-Reihenfolge des Geräts</translation>
    </message>
    <message>
        <source>Data type {encoding}</source>
        <translation>Datentyp {encoding}</translation>
    </message>
    <message>
        <source>Numbering of the device</source>
        <translation>Zählweise des Geräts</translation>
    </message>
    <message>
        <source>Only {signal} is read from register {number} instead of {former}.</source>
        <translation>Nur {signal} wird aus Register {number} statt {former} gelesen.</translation>
    </message>
    <message>
        <source>Only {signal} is read with the other word first.</source>
        <translation>Nur {signal} wird mit dem anderen Wort zuerst gelesen.</translation>
    </message>
    <message>
        <source>Raw {raw0} is {value0} and raw {raw1} is {value1} {unit}</source>
        <translation>Rohwert {raw0} ist {value0} und Rohwert {raw1} ist {value1} {unit}</translation>
    </message>
    <message>
        <source>Reads {signal} as {encoding} instead of {former}.</source>
        <translation>Liest {signal} als {encoding} statt {former}.</translation>
    </message>
    <message>
        <source>Register {number}</source>
        <translation>Register {number}</translation>
    </message>
    <message>
        <source>The manual of {device} counts from 0: all its signals ({count}) are read one higher.</source>
        <translation>Das Handbuch von {device} zählt ab 0: alle seine Signale ({count}) werden ein Register höher gelesen.</translation>
    </message>
    <message>
        <source>The manual of {device} counts from 1: all its signals ({count}) are read one lower.</source>
        <translation>Das Handbuch von {device} zählt ab 1: alle seine Signale ({count}) werden ein Register tiefer gelesen.</translation>
    </message>
    <message>
        <source>The value of {signal} is the raw number.</source>
        <translation>Der Wert von {signal} ist der Rohwert.</translation>
    </message>
    <message>
        <source>This scale</source>
        <translation>Diese Skalierung</translation>
    </message>
    <message>
        <source>Word and byte order of the device</source>
        <translation>Wort- und Byte-Reihenfolge des Geräts</translation>
    </message>
    <message>
        <source>Word order of the device</source>
        <translation>Wortreihenfolge des Geräts</translation>
    </message>
    <message>
        <source>Word order of this signal</source>
        <translation>Wortreihenfolge dieses Signals</translation>
    </message>
    <message>
        <source>a straight line fits all readings</source>
        <translation>eine Gerade passt zu allen Werten</translation>
    </message>
    <message>
        <source>a straight line; a third reading must confirm it</source>
        <translation>eine Gerade; ein dritter Wert muss sie bestätigen</translation>
    </message>
    <message>
        <source>its scale gives what the display shows</source>
        <translation>seine Skalierung ergibt die Anzeige</translation>
    </message>
    <message>
        <source>this snapshot does not hold the registers of {signal}</source>
        <translation>dieses Registerabbild enthält die Register von {signal} nicht</translation>
    </message>
    <message>
        <source>this snapshot is of unit {unit}, and device {device} is unit {own}</source>
        <translation>dieses Registerabbild ist von Geräteadresse {unit}, und Gerät {device} hat die Adresse {own}</translation>
    </message>
    <message>
        <source>{device}: {what}</source>
        <translation>{device}: {what}</translation>
    </message>
    <message>
        <source>{name} has another order of bytes than the other signals of this device; a device has one for all of them. Choose the same order, or leave {name} out.</source>
        <translation>{name} hat eine andere Byte-Reihenfolge als die anderen Signale dieses Geräts; ein Gerät hat eine für alle. Dieselbe Reihenfolge wählen oder {name} weglassen.</translation>
    </message>
    <message>
        <source>{path} already exists and was not overwritten: choose another name</source>
        <translation>{path} ist schon vorhanden und wurde nicht überschrieben: einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>{path} was not written: no device was found</source>
        <translation>{path} wurde nicht geschrieben: kein Gerät gefunden</translation>
    </message>
    <message>
        <source>{raw} = {value} gives what the display shows</source>
        <translation>{raw} = {value} ergibt die Anzeige</translation>
    </message>
    <message>
        <source>{text}; check at another value</source>
        <translation>{text}; bei einem anderen Wert prüfen</translation>
    </message>
</context>
<context>
    <name>edits</name>
    <message>
        <source>&apos;{signal}&apos; is in the same register</source>
        <translation>„{signal}“ liegt im selben Register</translation>
    </message>
    <message>
        <source>a bit of &apos;{word}&apos;, which is not copied</source>
        <translation>ein Bit von „{word}“, das nicht kopiert wird</translation>
    </message>
    <message>
        <source>a new device for each copy needs registers of one device only</source>
        <translation>ein neues Gerät je Kopie setzt Register nur eines Geräts voraus</translation>
    </message>
    <message>
        <source>a ring needs two screens or more; select them together</source>
        <translation>ein Ring braucht mindestens zwei Bilder; diese zusammen auswählen</translation>
    </message>
    <message>
        <source>a screen cannot be called {name}: screen changes use this word; choose another name</source>
        <translation>ein Bild kann nicht {name} heißen: Bildwechsel benutzen dieses Wort; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>device &apos;{device}&apos; is never asked for register {number}</source>
        <translation>Gerät „{device}“ wird nie nach Register {number} gefragt</translation>
    </message>
    <message>
        <source>device &apos;{device}&apos; offers no function that writes it</source>
        <translation>Gerät „{device}“ bietet keine Funktion, die es schreibt</translation>
    </message>
    <message>
        <source>device &apos;{device}&apos; returns {most} registers at once, the value has {size}</source>
        <translation>Gerät „{device}“ liefert höchstens {most} Register auf einmal, der Wert hat {size}</translation>
    </message>
    <message>
        <source>device {name} cannot be deleted: it is used by {places}</source>
        <translation>Gerät {name} kann nicht gelöscht werden: verwendet von {places}</translation>
    </message>
    <message>
        <source>field {number} (signal {signal}) is only partly selected</source>
        <translation>Feld {number} (Signal {signal}) ist nur teilweise ausgewählt</translation>
    </message>
    <message>
        <source>line {name} cannot be deleted: it is used by {places}</source>
        <translation>Leitung {name} kann nicht gelöscht werden: verwendet von {places}</translation>
    </message>
    <message>
        <source>no screen is selected</source>
        <translation>kein Bild ausgewählt</translation>
    </message>
    <message>
        <source>no space: text would be pushed under a field or off the panel</source>
        <translation>kein Platz: Text würde unter ein Feld oder aus dem Panel geschoben</translation>
    </message>
    <message>
        <source>screen {name} cannot be deleted: it is the start screen</source>
        <translation>Bild {name} kann nicht gelöscht werden: es ist das Startbild</translation>
    </message>
    <message>
        <source>screen {name} cannot be deleted: screen changes go to it: {changes}</source>
        <translation>Bild {name} kann nicht gelöscht werden: Bildwechsel führen dorthin: {changes}</translation>
    </message>
    <message>
        <source>screen {screen} is made for {rows} x {columns} cells; this panel has {here} x {across}</source>
        <translation>Bild {screen} ist für {rows} x {columns} Zellen gemacht; dieses Panel hat {here} x {across}</translation>
    </message>
    <message>
        <source>signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>signal &apos;{word}&apos; has no bit {bit}</source>
        <translation>Signal „{word}“ hat kein Bit {bit}</translation>
    </message>
    <message>
        <source>signal {name} cannot be deleted: it is used by {places}</source>
        <translation>Signal {name} kann nicht gelöscht werden: verwendet von {places}</translation>
    </message>
    <message>
        <source>the cells would be outside the panel</source>
        <translation>die Zellen lägen außerhalb des Panels</translation>
    </message>
    <message>
        <source>the copy {name}: {reason}</source>
        <translation>die Kopie {name}: {reason}</translation>
    </message>
    <message>
        <source>the field of signal {signal} is there</source>
        <translation>dort steht das Feld des Signals {signal}</translation>
    </message>
    <message>
        <source>the field of signal {signal} would cover the text</source>
        <translation>das Feld des Signals {signal} würde den Text verdecken</translation>
    </message>
    <message>
        <source>the field of signal {signal} would cover the text {text} in row {row}</source>
        <translation>das Feld des Signals {signal} würde den Text {text} in Zeile {row} verdecken</translation>
    </message>
    <message>
        <source>the field would overlap field {number} (signal {signal})</source>
        <translation>das Feld würde Feld {number} (Signal {signal}) überlappen</translation>
    </message>
    <message>
        <source>the field would reach 1 cell past the right edge of the panel</source>
        <translation>das Feld würde 1 Zelle über den rechten Rand des Panels hinausragen</translation>
    </message>
    <message>
        <source>the field would reach {count} cells past the right edge of the panel</source>
        <translation>das Feld würde {count} Zellen über den rechten Rand des Panels hinausragen</translation>
    </message>
    <message>
        <source>the field would start outside the panel</source>
        <translation>das Feld würde außerhalb des Panels beginnen</translation>
    </message>
    <message>
        <source>the new order must contain every part once</source>
        <translation>die neue Reihenfolge muss jedes Element einmal enthalten</translation>
    </message>
    <message>
        <source>the new text has {count} characters, more than a row of a panel can have</source>
        <translation>der neue Text hat {count} Zeichen, mehr als in eine Zeile passen</translation>
    </message>
    <message>
        <source>the number of copies must be 1 to {most}, not {number}</source>
        <translation>es können 1 bis {most} Kopien sein, nicht {number}</translation>
    </message>
    <message>
        <source>the panel has no additional language {language}</source>
        <translation>das Panel hat keine weitere Sprache {language}</translation>
    </message>
    <message>
        <source>the text contains a control character (code {code}), which no panel shows</source>
        <translation>der Text enthält ein Steuerzeichen (Code {code}), das kein Panel zeigt</translation>
    </message>
    <message>
        <source>the text reaches 1 cell past the right edge of the panel</source>
        <translation>der Text ragt 1 Zelle über den rechten Rand des Panels hinaus</translation>
    </message>
    <message>
        <source>the text reaches {count} cells past the right edge of the panel</source>
        <translation>der Text ragt {count} Zellen über den rechten Rand des Panels hinaus</translation>
    </message>
    <message>
        <source>the text {text} in row {row} is there</source>
        <translation>dort steht der Text {text} in Zeile {row}</translation>
    </message>
    <message>
        <source>the value extends beyond the last register</source>
        <translation>der Wert reicht über das letzte Register hinaus</translation>
    </message>
    <message>
        <source>there are two keys &apos;{key}&apos;; each key needs a name of its own</source>
        <translation>zwei Tasten heißen „{key}“; jede Taste braucht einen eigenen Namen</translation>
    </message>
    <message>
        <source>there is already a {kind} {name}; choose another name</source>
        <translation>{kind} {name} gibt es schon; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>there is no language {language} in the panel</source>
        <translation>das Panel hat keine Sprache {language}</translation>
    </message>
    <message>
        <source>there is no {kind} {number}; there are {count}</source>
        <translation>{kind} {number} gibt es nicht; vorhanden sind {count}</translation>
    </message>
    <message>
        <source>this cell is outside the panel</source>
        <translation>diese Zelle liegt außerhalb des Panels</translation>
    </message>
    <message>
        <source>this needs {rows} x {columns} cells, but there are only {left_rows} x {left} from the cursor</source>
        <translation>dies braucht {rows} x {columns} Zellen, ab dem Cursor sind es nur {left_rows} x {left}</translation>
    </message>
    <message>
        <source>unit address {unit} belongs to device &apos;{device}&apos;</source>
        <translation>Geräteadresse {unit} gehört schon zu Gerät „{device}“</translation>
    </message>
    <message>
        <source>write &apos;#&apos; once where the number belongs: &apos;belt # speed&apos;</source>
        <translation>„#“ einmal an die Stelle der Nummer schreiben: „Band # Drehzahl“</translation>
    </message>
    <message>
        <source>{columns} columns and {rows} rows are not enough for {parts}</source>
        <translation>{columns} Spalten und {rows} Zeilen sind zu wenig für {parts}</translation>
    </message>
    <message>
        <source>{kind} {name} cannot be removed: it is used by {uses}</source>
        <translation>{kind} {name} kann nicht entfernt werden: verwendet von {uses}</translation>
    </message>
    <message>
        <source>{kind} {name} does not exist</source>
        <translation>{kind} {name} gibt es nicht</translation>
    </message>
    <message>
        <source>{language} has no texts yet and cannot be the first language</source>
        <translation>{language} hat noch keine Texte und kann nicht die erste Sprache sein</translation>
    </message>
    <message>
        <source>{names} and others</source>
        <translation>{names} und andere</translation>
    </message>
    <message>
        <source>{names} cannot be deleted: they are used by {places}</source>
        <translation>{names} können nicht gelöscht werden: verwendet von {places}</translation>
    </message>
    <message>
        <source>{places} and {count} more</source>
        <translation>{places} und {count} weitere</translation>
    </message>
    <message>
        <source>{text} needs {needed} cells, but only {room} are free there</source>
        <translation>{text} braucht {needed} Zellen, frei sind dort nur {room}</translation>
    </message>
</context>
<context>
    <name>exchange</name>
    <message>
        <source>&apos;little endian&apos; is taken as the word order; if it also applies to the bytes of each word, set the byte order of the device</source>
        <translation>„little endian“ gilt hier als Wortreihenfolge; gilt es auch für die Bytes jedes Wortes, die Byte-Reihenfolge beim Gerät einstellen</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; also swaps the bytes of each word: set the byte order of the device, and ignore this column</source>
        <translation>„{text}“ vertauscht auch die Bytes jedes Wortes: die Byte-Reihenfolge beim Gerät einstellen und diese Spalte ignorieren</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; can be a register with a thousands separator, or a part of one; write plain digits</source>
        <translation>„{text}“ kann ein Register mit Tausendertrennzeichen sein oder ein Teil davon; Ziffern ohne Trennzeichen schreiben</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; can mean {small} or {large}: choose the decimal mark of the file above</source>
        <translation>„{text}“ kann {small} oder {large} bedeuten: oben das Dezimalzeichen der Datei wählen</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; has too many digits</source>
        <translation>„{text}“ hat zu viele Ziffern</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is a register only if registers are hexadecimal: set this above, or write 0x{text}</source>
        <translation>„{text}“ ist nur ein Register, wenn Register hexadezimal sind: das oben einstellen oder 0x{text} schreiben</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is neither yes nor no; enter yes or no, or R/W or RO</source>
        <translation>„{text}“ ist weder ja noch nein; ja oder nein eingeben, oder R/W oder RO</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a bit; bits are 0 to 63</source>
        <translation>„{text}“ ist kein Bit; Bits sind 0 bis 63</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a factor</source>
        <translation>„{text}“ ist kein Faktor</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a known data type; use one of {encodings}</source>
        <translation>„{text}“ ist kein bekannter Datentyp; möglich: {encodings}</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a length</source>
        <translation>„{text}“ ist keine Länge</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a line such as Deutsch: 0=steht; 1=läuft</source>
        <translation>„{text}“ ist keine Zeile wie Deutsch: 0=steht; 1=läuft</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a list of texts; enter a text per value: 0 = stopped; 1 = running</source>
        <translation>„{text}“ ist keine Liste von Texten; zu jedem Wert einen Text eingeben: 0 = steht; 1 = läuft</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a number</source>
        <translation>„{text}“ ist keine Zahl</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a number with a decimal comma</source>
        <translation>„{text}“ ist keine Zahl mit Dezimalkomma</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a number with a decimal point</source>
        <translation>„{text}“ ist keine Zahl mit Dezimalpunkt</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a range; enter two numbers: 0 to 50</source>
        <translation>„{text}“ ist kein Bereich; zwei Zahlen eingeben: 0 bis 50</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a register number</source>
        <translation>„{text}“ ist keine Registernummer</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a table; write holding, input, coil or discrete, or the function code</source>
        <translation>„{text}“ ist keine Tabelle; holding, input, coil oder discrete schreiben, oder den Funktionscode</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a whole number</source>
        <translation>„{text}“ ist keine ganze Zahl</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a word order; write high-first or low-first</source>
        <translation>„{text}“ ist keine Wortreihenfolge; high-first oder low-first schreiben</translation>
    </message>
    <message>
        <source>A quotation mark (&quot;) in row {row} or before is never closed. All quotation marks were read as text.</source>
        <translation>Ein Anführungszeichen (&quot;) in Zeile {row} oder davor wird nie geschlossen. Alle Anführungszeichen wurden als Text gelesen.</translation>
    </message>
    <message>
        <source>Column {title} is ignored: its content does not match its title.</source>
        <translation>Spalte {title} wird ignoriert: Der Inhalt passt nicht zum Titel.</translation>
    </message>
    <message>
        <source>DOS, Western Europe</source>
        <translation>DOS, Westeuropa</translation>
    </message>
    <message>
        <source>File not found. Check the name and the folder.</source>
        <translation>Datei nicht gefunden. Namen und Ordner prüfen.</translation>
    </message>
    <message>
        <source>For points it does not implement, a device returns the largest or smallest number of the type, such as 65535 or -32768.</source>
        <translation>Für nicht vorhandene Punkte liefert ein Gerät die größte oder kleinste Zahl des Typs, etwa 65535 oder -32768.</translation>
    </message>
    <message>
        <source>Formulas without a saved result: {places}. Open the workbook in a spreadsheet program, save it there, and import it again.</source>
        <translation>Formeln ohne gespeichertes Ergebnis: {places}. Die Mappe in einer Tabellenkalkulation öffnen, dort speichern und erneut importieren.</translation>
    </message>
    <message>
        <source>Latin-1</source>
        <translation>Latin-1</translation>
    </message>
    <message>
        <source>Line {line} contains bytes that are not {coding}; they are shown as �. Choose another character encoding.</source>
        <translation>Zeile {line} enthält Bytes, die nicht {coding} sind; sie erscheinen als �. Eine andere Zeichenkodierung wählen.</translation>
    </message>
    <message>
        <source>Merged cells are used for each row they cover: {places}.</source>
        <translation>Verbundene Zellen gelten für jede Zeile, die sie umfassen: {places}.</translation>
    </message>
    <message>
        <source>Model {id}, {label}: holding registers, addresses {first} to {last} (0-based).</source>
        <translation>Modell {id}, {label}: Holding-Register, Adressen {first} bis {last} (ab 0 gezählt).</translation>
    </message>
    <message>
        <source>No permission to read this file.</source>
        <translation>Keine Berechtigung, diese Datei zu lesen.</translation>
    </message>
    <message>
        <source>Padding registers skipped: {count}</source>
        <translation>Übersprungene Füllregister: {count}</translation>
    </message>
    <message>
        <source>Row {row} has {count} cells; at most {most} are read. Is the separator right?</source>
        <translation>Zeile {row} hat {count} Zellen; gelesen werden höchstens {most}. Ist das Trennzeichen richtig?</translation>
    </message>
    <message>
        <source>Row {row}: &apos;{name}&apos;, a held value of the panel</source>
        <translation>Zeile {row}: „{name}“, ein Panelwert</translation>
    </message>
    <message>
        <source>Row {row}: &apos;{name}&apos;, bit {bit} of &apos;{of}&apos;</source>
        <translation>Zeile {row}: „{name}“, Bit {bit} von „{of}“</translation>
    </message>
    <message>
        <source>Row {row}: &apos;{name}&apos;, {follower}, {table} {number}, address {address} (0-based)</source>
        <translation>Zeile {row}: „{name}“, {follower}, {table} {number}, Adresse {address} (ab 0 gezählt)</translation>
    </message>
    <message>
        <source>Scale factors stored only in the device: {names}. Read them there and fill them in; until then their points are imported unscaled, with a note.</source>
        <translation>Nur im Gerät gespeicherte Skalierungsfaktoren: {names}. Dort auslesen und eintragen; bis dahin werden ihre Punkte unskaliert importiert, mit einer Notiz.</translation>
    </message>
    <message>
        <source>Signal &apos;{name}&apos; has a text of more than {most} characters, too long for a cell of a workbook. Export as CSV.</source>
        <translation>Signal „{name}“ hat einen Text von mehr als {most} Zeichen, zu lang für eine Zelle einer Arbeitsmappe. Als CSV exportieren.</translation>
    </message>
    <message>
        <source>The factors are {factors}. If the list means raw number / {example}, assign the column to the divisor.</source>
        <translation>Die Faktoren sind {factors}. Meint die Liste Rohwert / {example}, die Spalte dem Divisor zuordnen.</translation>
    </message>
    <message>
        <source>The file cannot be read: {reason}.</source>
        <translation>Die Datei kann nicht gelesen werden: {reason}.</translation>
    </message>
    <message>
        <source>The file has more than {size} MB, too large for a register list.</source>
        <translation>Die Datei hat mehr als {size} MB, zu groß für eine Registerliste.</translation>
    </message>
    <message>
        <source>The file is empty.</source>
        <translation>Die Datei ist leer.</translation>
    </message>
    <message>
        <source>The file starts like JSON but is not valid JSON. Is it incomplete?</source>
        <translation>Die Datei beginnt wie JSON, ist aber kein gültiges JSON. Ist sie unvollständig?</translation>
    </message>
    <message>
        <source>The list contains two number formats, {first} and {second}. Check that the decimal mark is right.</source>
        <translation>Die Liste enthält zwei Zahlenformate, {first} und {second}. Prüfen, ob das Dezimalzeichen stimmt.</translation>
    </message>
    <message>
        <source>The model has more than {most} points; use fewer repetitions of its groups.</source>
        <translation>Das Modell hat mehr als {most} Punkte; seine Gruppen weniger oft wiederholen.</translation>
    </message>
    <message>
        <source>The quotation marks (&quot;) in row {row} do not match. Check its cells.</source>
        <translation>Die Anführungszeichen (&quot;) in Zeile {row} gehen nicht auf. Die Zellen prüfen.</translation>
    </message>
    <message>
        <source>The sheet extends to {place}; at most {rows} rows and {columns} columns are read. Delete cells far outside the list, or split the list.</source>
        <translation>Das Blatt reicht bis {place}; gelesen werden höchstens {rows} Zeilen und {columns} Spalten. Zellen weit außerhalb der Liste löschen oder die Liste aufteilen.</translation>
    </message>
    <message>
        <source>The table has more than {most} rows; split the file.</source>
        <translation>Die Tabelle hat mehr als {most} Zeilen; die Datei aufteilen.</translation>
    </message>
    <message>
        <source>The text cannot be split into cells: {reason}.</source>
        <translation>Der Text lässt sich nicht in Zellen aufteilen: {reason}.</translation>
    </message>
    <message>
        <source>The text is not UTF-8 and was read as {coding}. Check that these are right: {shown}</source>
        <translation>Der Text ist kein UTF-8 und wurde als {coding} gelesen. Prüfen, ob dies stimmt: {shown}</translation>
    </message>
    <message>
        <source>The unpacked workbook has more than {size} MB, too large for a register list.</source>
        <translation>Die Arbeitsmappe hat entpackt mehr als {size} MB, zu groß für eine Registerliste.</translation>
    </message>
    <message>
        <source>The workbook cannot be read: {reason}.</source>
        <translation>Die Arbeitsmappe kann nicht gelesen werden: {reason}.</translation>
    </message>
    <message>
        <source>The workbook is damaged or incomplete. Save it again and import it.</source>
        <translation>Die Arbeitsmappe ist beschädigt oder unvollständig. Neu speichern und importieren.</translation>
    </message>
    <message>
        <source>The workbook is damaged or password-protected. Save it again without a password.</source>
        <translation>Die Arbeitsmappe ist beschädigt oder durch ein Kennwort geschützt. Ohne Kennwort neu speichern.</translation>
    </message>
    <message>
        <source>The workbook is damaged: sheet {name} is missing. Save it again and import it.</source>
        <translation>Die Arbeitsmappe ist beschädigt: Das Blatt {name} fehlt. Neu speichern und importieren.</translation>
    </message>
    <message>
        <source>The workbook is password-protected. Save it without a password and import it.</source>
        <translation>Die Arbeitsmappe ist durch ein Kennwort geschützt. Ohne Kennwort speichern und importieren.</translation>
    </message>
    <message>
        <source>There is no sheet with cells in the workbook.</source>
        <translation>Die Arbeitsmappe hat kein Blatt mit Zellen.</translation>
    </message>
    <message>
        <source>There is no sheet {name} in the workbook.</source>
        <translation>Die Arbeitsmappe hat kein Blatt {name}.</translation>
    </message>
    <message>
        <source>There is only one column: is the separator right?</source>
        <translation>Es gibt nur eine Spalte: Ist das Trennzeichen richtig?</translation>
    </message>
    <message>
        <source>This JSON is not a SunSpec model: it needs an &apos;id&apos; and a &apos;group&apos; with &apos;points&apos;.</source>
        <translation>Dieses JSON ist kein SunSpec-Modell: nötig sind eine „id“ und eine „group“ mit „points“.</translation>
    </message>
    <message>
        <source>This SunSpec model has an error at {where}.</source>
        <translation>Dieses SunSpec-Modell hat einen Fehler bei {where}.</translation>
    </message>
    <message>
        <source>This is a PDF. Copy its table into a spreadsheet, save that as XLSX and import it.</source>
        <translation>Dies ist ein PDF. Die Tabelle in eine Tabellenkalkulation kopieren, als XLSX speichern und importieren.</translation>
    </message>
    <message>
        <source>This is a ZIP file but not an XLSX workbook. Save the list as XLSX and import it.</source>
        <translation>Dies ist eine ZIP-Datei, aber keine XLSX-Arbeitsmappe. Die Liste als XLSX speichern und importieren.</translation>
    </message>
    <message>
        <source>This is a folder. Choose a file in it.</source>
        <translation>Dies ist ein Ordner. Eine Datei darin wählen.</translation>
    </message>
    <message>
        <source>This is a workbook in the old binary format (XLS), or password-protected. Save it as XLSX without a password and import it.</source>
        <translation>Dies ist eine Arbeitsmappe im alten Binärformat (XLS) oder mit Kennwort. Als XLSX ohne Kennwort speichern und importieren.</translation>
    </message>
    <message>
        <source>This is neither a text nor a workbook. Save the list as CSV or XLSX and import it.</source>
        <translation>Dies ist weder ein Text noch eine Arbeitsmappe. Die Liste als CSV oder XLSX speichern und importieren.</translation>
    </message>
    <message>
        <source>This is not a regular file. Choose a CSV, XLSX or JSON file.</source>
        <translation>Dies ist keine normale Datei. Eine CSV-, XLSX- oder JSON-Datei wählen.</translation>
    </message>
    <message>
        <source>UTF-16</source>
        <translation>UTF-16</translation>
    </message>
    <message>
        <source>UTF-8</source>
        <translation>UTF-8</translation>
    </message>
    <message>
        <source>Unscaled: value = raw number x 10 to the power of {name}</source>
        <translation>Unskaliert: Wert = Rohwert x 10 hoch {name}</translation>
    </message>
    <message>
        <source>Windows, Central Europe</source>
        <translation>Windows, Mitteleuropa</translation>
    </message>
    <message>
        <source>Windows, Western Europe</source>
        <translation>Windows, Westeuropa</translation>
    </message>
    <message>
        <source>a bit needs its register, or the name of its signal</source>
        <translation>ein Bit braucht sein Register oder den Namen seines Signals</translation>
    </message>
    <message>
        <source>a coil or discrete input has no bits; this is ignored</source>
        <translation>ein Coil oder Discrete Input hat keine Bits; dies wird ignoriert</translation>
    </message>
    <message>
        <source>a factor cannot be divided by 0</source>
        <translation>ein Faktor kann nicht durch 0 geteilt werden</translation>
    </message>
    <message>
        <source>a factor of 0 makes every value 0</source>
        <translation>ein Faktor 0 macht jeden Wert zu 0</translation>
    </message>
    <message>
        <source>a scale needs two raw numbers and their two values</source>
        <translation>eine Skalierung braucht zwei Rohwerte und ihre zwei Werte</translation>
    </message>
    <message>
        <source>a string is 1 to 125 registers long, not {length}</source>
        <translation>ein String ist 1 bis 125 Register lang, nicht {length}</translation>
    </message>
    <message>
        <source>a string needs a length in registers; assign a column to the length</source>
        <translation>ein String braucht eine Länge in Registern; der Länge eine Spalte zuordnen</translation>
    </message>
    <message>
        <source>an 8-bit value: the whole register is read</source>
        <translation>ein 8-Bit-Wert: das ganze Register wird gelesen</translation>
    </message>
    <message>
        <source>imported as &apos;{name}&apos;</source>
        <translation>importiert als „{name}“</translation>
    </message>
    <message>
        <source>no device given: choose one for rows without a device</source>
        <translation>kein Gerät angegeben: eines für Zeilen ohne Gerät wählen</translation>
    </message>
    <message>
        <source>only one limit is given; without the other it is ignored</source>
        <translation>nur eine Grenze ist angegeben; ohne die andere wird sie ignoriert</translation>
    </message>
    <message>
        <source>points of type {type} are not supported</source>
        <translation>Punkte vom Typ {type} werden nicht unterstützt</translation>
    </message>
    <message>
        <source>raw {raw} is {value} {unit}</source>
        <translation>Rohwert {raw} ist {value} {unit}</translation>
    </message>
    <message>
        <source>recognised as a heading between rows</source>
        <translation>als Zwischenüberschrift erkannt</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; already has bits and cannot become a bit</source>
        <translation>Signal „{name}“ hat schon Bits und kann kein Bit werden</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; has no bit {bit}</source>
        <translation>Signal „{name}“ hat kein Bit {bit}</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is a held value that an action writes</source>
        <translation>Signal „{name}“ ist ein Panelwert, den eine Aktion schreibt</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is added to hold its bits</source>
        <translation>Signal „{name}“ wird für seine Bits angelegt</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is itself a bit</source>
        <translation>Signal „{name}“ ist selbst ein Bit</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is neither in the project nor in the imported rows</source>
        <translation>Signal „{name}“ ist weder im Projekt noch in den importierten Zeilen</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is not a whole number and has no bits</source>
        <translation>Signal „{name}“ ist keine ganze Zahl und hat keine Bits</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; stands at the same place already</source>
        <translation>Signal „{name}“ liegt schon an derselben Stelle</translation>
    </message>
    <message>
        <source>the bit number is missing</source>
        <translation>die Bitnummer fehlt</translation>
    </message>
    <message>
        <source>the cell contains a date or time ({value}); spreadsheets also convert texts such as 1-10 to dates; format the column as text and type it again</source>
        <translation>die Zelle enthält ein Datum oder eine Zeit ({value}); Tabellenkalkulationen wandeln auch Texte wie 1-10 in ein Datum um; die Spalte als Text formatieren und neu eingeben</translation>
    </message>
    <message>
        <source>the cell contains the error {error}; correct its formula</source>
        <translation>die Zelle enthält den Fehler {error}; ihre Formel berichtigen</translation>
    </message>
    <message>
        <source>the data type is missing for a value of several registers</source>
        <translation>bei einem Wert aus mehreren Registern fehlt der Datentyp</translation>
    </message>
    <message>
        <source>the exponent must be -30 to 30</source>
        <translation>der Exponent muss -30 bis 30 sein</translation>
    </message>
    <message>
        <source>the formula in {place} was saved without its result; type the value instead</source>
        <translation>die Formel in {place} wurde ohne Ergebnis gespeichert; stattdessen den Wert eingeben</translation>
    </message>
    <message>
        <source>the name &apos;{name}&apos; is already used in row {row}</source>
        <translation>der Name „{name}“ kommt schon in Zeile {row} vor</translation>
    </message>
    <message>
        <source>the name has {count} characters and was cut to {most}; the full name is in the notes</source>
        <translation>der Name hat {count} Zeichen und wurde auf {most} gekürzt; der volle Name steht in den Notizen</translation>
    </message>
    <message>
        <source>the name is missing</source>
        <translation>der Name fehlt</translation>
    </message>
    <message>
        <source>the project has no device &apos;{name}&apos;, and no line to add it to</source>
        <translation>das Projekt hat kein Gerät „{name}“ und keine Leitung für ein neues</translation>
    </message>
    <message>
        <source>the register contains a different bit number</source>
        <translation>das Register enthält eine andere Bitnummer</translation>
    </message>
    <message>
        <source>the register is missing</source>
        <translation>das Register fehlt</translation>
    </message>
    <message>
        <source>the unit has {count} characters, more than {most}; it was moved to the notes</source>
        <translation>die Einheit hat {count} Zeichen, mehr als {most}; sie steht in den Notizen</translation>
    </message>
    <message>
        <source>the value extends beyond the last register</source>
        <translation>der Wert reicht über das letzte Register hinaus</translation>
    </message>
    <message>
        <source>there are two scales, one by points and one by a factor</source>
        <translation>es gibt zwei Skalierungen, eine durch Punkte und eine durch einen Faktor</translation>
    </message>
    <message>
        <source>there is already a signal &apos;{name}&apos;; it is not changed</source>
        <translation>das Signal „{name}“ gibt es schon; es wird nicht geändert</translation>
    </message>
    <message>
        <source>there is no data type of this kind with {bits} bits</source>
        <translation>es gibt keinen Datentyp dieser Art mit {bits} Bits</translation>
    </message>
    <message>
        <source>there is no other language &apos;{name}&apos; in the panel; add it first</source>
        <translation>das Panel hat keine weitere Sprache „{name}“; zuerst anlegen</translation>
    </message>
    <message>
        <source>this is signal &apos;{name}&apos; of the project; it is not changed</source>
        <translation>das ist Signal „{name}“ des Projekts; es wird nicht geändert</translation>
    </message>
    <message>
        <source>updates signal &apos;{name}&apos;, which stands at the same place</source>
        <translation>aktualisiert Signal „{name}“, das an derselben Stelle liegt</translation>
    </message>
    <message>
        <source>{encoding} takes {own} registers, but the row has {given}</source>
        <translation>{encoding} belegt {own} Register, die Zeile gibt aber {given} an</translation>
    </message>
    <message>
        <source>{file} was not written: it is write-protected, open in another program, or in a folder without write permission.</source>
        <translation>{file} wurde nicht geschrieben: schreibgeschützt, in einem anderen Programm offen oder in einem Ordner ohne Schreibrecht.</translation>
    </message>
    <message>
        <source>{file} was not written: there is a folder with this name.</source>
        <translation>{file} wurde nicht geschrieben: Es gibt einen Ordner mit diesem Namen.</translation>
    </message>
    <message>
        <source>{file} was not written: there is no folder {folder}.</source>
        <translation>{file} wurde nicht geschrieben: Es gibt keinen Ordner {folder}.</translation>
    </message>
    <message>
        <source>{file} was not written: {reason}.</source>
        <translation>{file} wurde nicht geschrieben: {reason}.</translation>
    </message>
    <message>
        <source>{number} is not a register; write a bit of a register as text, or in a separate column</source>
        <translation>{number} ist kein Register; ein Bit eines Registers als Text oder in einer eigenen Spalte angeben</translation>
    </message>
    <message>
        <source>{places} and {count} more</source>
        <translation>{places} und {count} weitere</translation>
    </message>
</context>
<context>
    <name>files</name>
    <message>
        <source>&amp;Compare</source>
        <translation>&amp;Vergleichen</translation>
    </message>
    <message>
        <source>&amp;Discard</source>
        <translation>&amp;Verwerfen</translation>
    </message>
    <message>
        <source>&amp;Disconnect</source>
        <translation>&amp;Trennen</translation>
    </message>
    <message>
        <source>&amp;Leave</source>
        <translation>&amp;Verlassen</translation>
    </message>
    <message>
        <source>&amp;Overwrite</source>
        <translation>&amp;Überschreiben</translation>
    </message>
    <message>
        <source>&amp;Reload</source>
        <translation>&amp;Neu laden</translation>
    </message>
    <message>
        <source>&amp;Replace</source>
        <translation>E&amp;rsetzen</translation>
    </message>
    <message>
        <source>&amp;Save</source>
        <translation>&amp;Speichern</translation>
    </message>
    <message>
        <source>Armed</source>
        <translation>Schreiben freigegeben</translation>
    </message>
    <message>
        <source>Changed by another program</source>
        <translation>Von einem anderen Programm geändert</translation>
    </message>
    <message>
        <source>Comments in the file</source>
        <translation>Kommentare in der Datei</translation>
    </message>
    <message>
        <source>Disarmed automatically</source>
        <translation>Schreiben automatisch gesperrt</translation>
    </message>
    <message>
        <source>Disconnecting does not stop anything: a running machine keeps running, and the panel can no longer stop it.</source>
        <translation>Trennen hält nichts an: Eine laufende Maschine läuft weiter, und das Panel kann sie nicht mehr anhalten.</translation>
    </message>
    <message>
        <source>Fanlight is armed on {lines}. Disconnect?</source>
        <translation>Das Schreiben auf {lines} ist freigegeben. Trennen?</translation>
    </message>
    <message>
        <source>Incomplete</source>
        <translation>Unvollständig</translation>
    </message>
    <message>
        <source>Incomplete and therefore not saved: {what}. It will be lost.</source>
        <translation>Unvollständig und darum nicht gespeichert: {what}. Es geht verloren.</translation>
    </message>
    <message>
        <source>Leave “{name}” with incomplete entries?</source>
        <translation>„{name}“ mit unvollständigen Eingaben verlassen?</translation>
    </message>
    <message>
        <source>Not saved</source>
        <translation>Nicht gespeichert</translation>
    </message>
    <message>
        <source>Nothing has been saved yet. Compare shows both versions side by side. Overwrite saves your version and keeps the other one in a separate file. Reload opens the other version; undo brings yours back.</source>
        <translation>Noch ist nichts gespeichert. Vergleichen zeigt beide Fassungen nebeneinander. Überschreiben speichert diese Fassung und behält die andere in einer eigenen Datei. Neu laden öffnet die andere Fassung; Rückgängig holt diese zurück.</translation>
    </message>
    <message>
        <source>Otherwise they will be lost.</source>
        <translation>Sonst gehen sie verloren.</translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation>Speichern &amp;unter…</translation>
    </message>
    <message>
        <source>Save the changes to “{name}”?</source>
        <translation>Änderungen an „{name}“ speichern?</translation>
    </message>
    <message>
        <source>Save without the comments?</source>
        <translation>Ohne die Kommentare speichern?</translation>
    </message>
    <message>
        <source>Stop keys still write. Disconnect?</source>
        <translation>Stopptasten schreiben noch. Trennen?</translation>
    </message>
    <message>
        <source>Unsaved changes</source>
        <translation>Ungespeicherte Änderungen</translation>
    </message>
    <message>
        <source>{file} already exists. Replace it?</source>
        <translation>{file} gibt es schon. Ersetzen?</translation>
    </message>
    <message>
        <source>{file} contains comments after &apos;#&apos;, which are lost when it is saved. The present file is kept as {file}.bak until you save again. Put what should last into the notes.</source>
        <translation>{file} enthält Kommentare hinter „#“, die beim Speichern verloren gehen. Die jetzige Datei bleibt als {file}.bak erhalten, bis wieder gespeichert wird. Was bleiben soll, gehört in die Notizen.</translation>
    </message>
    <message>
        <source>{file} was changed by another program</source>
        <translation>{file} wurde von einem anderen Programm geändert</translation>
    </message>
    <message>
        <source>{first}; and {count} more</source>
        <translation>{first}; und {count} weitere</translation>
    </message>
</context>
<context>
    <name>finding out</name>
    <message>
        <source>A SunSpec map begins at address {base}; its models: {models}.</source>
        <translation>Ab Adresse {base} beginnt eine SunSpec-Belegung; ihre Modelle: {models}.</translation>
    </message>
    <message>
        <source>A gateway says of {count} unit addresses that nobody answers there.</source>
        <translation>Ein Gateway meldet für {count} Geräteadressen, dass dort niemand antwortet.</translation>
    </message>
    <message>
        <source>Asking unit {unit} for two things at once.</source>
        <translation>Gerät {unit} wird nach zwei Dingen zugleich gefragt.</translation>
    </message>
    <message>
        <source>Asking unit {unit} once more, {left} units are left.</source>
        <translation>Gerät {unit} wird noch einmal gefragt, noch {left} Adressen.</translation>
    </message>
    <message>
        <source>Asking unit {unit} what it is.</source>
        <translation>Gerät {unit} wird gefragt, was es ist.</translation>
    </message>
    <message>
        <source>Asking unit {unit}, {left} units are left.</source>
        <translation>Gerät {unit} wird gefragt, noch {left} Adressen.</translation>
    </message>
    <message>
        <source>It answers to every address of table {table}, so which registers it really has cannot be told.</source>
        <translation>Es antwortet auf jede Adresse der Tabelle {table}; welche Register es wirklich hat, ist nicht zu erkennen.</translation>
    </message>
    <message>
        <source>It answers to every unit address.</source>
        <translation>Es antwortet auf jede Geräteadresse.</translation>
    </message>
    <message>
        <source>It gives registers of table {table} in pairs only.</source>
        <translation>Register der Tabelle {table} gibt es nur paarweise.</translation>
    </message>
    <message>
        <source>Listening at {settings}: {characters} characters, {frames} of their frames are sound.</source>
        <translation>Gehört wird mit {settings}: {characters} Zeichen, {frames} heile Telegramme.</translation>
    </message>
    <message>
        <source>Listening whether somebody else speaks on the line.</source>
        <translation>Es wird gehört, ob sonst jemand auf der Leitung spricht.</translation>
    </message>
    <message>
        <source>Looking for {table} registers of unit {unit}: {count} found.</source>
        <translation>Gerät {unit}, Register der Tabelle {table}: {count} gefunden.</translation>
    </message>
    <message>
        <source>Then {left} more units are asked.</source>
        <translation>Danach werden noch {left} Geräteadressen gefragt.</translation>
    </message>
    <message>
        <source>Trying {settings}, unit {unit}: {tried} of 100 devices would have answered by now; to find one of the others takes another {time} min on average.</source>
        <translation>Versuch mit {settings}, Gerät {unit}: {tried} von 100 Geräten hätten bis jetzt geantwortet; eines der übrigen zu finden dauert im Mittel noch {time} min.</translation>
    </message>
    <message>
        <source>Trying {settings}, unit {unit}: {tried} of 100 devices would have answered by now; to find one of the others takes another {time} s on average.</source>
        <translation>Versuch mit {settings}, Gerät {unit}: {tried} von 100 Geräten hätten bis jetzt geantwortet; eines der übrigen zu finden dauert im Mittel noch {time} s.</translation>
    </message>
    <message>
        <source>Whether it stops when nobody asks it any more cannot be found out by reading: see its manual.</source>
        <translation>Ob es anhält, wenn niemand mehr fragt, ist durch Lesen nicht zu erkennen: siehe Handbuch.</translation>
    </message>
    <message>
        <source>another client is asking devices on this line, so nothing more is sent; disconnect it to search, or listen to it</source>
        <translation>ein anderer Client fragt Geräte an dieser Leitung ab, deshalb wird nichts mehr gesendet; für die Suche trennen oder mithören</translation>
    </message>
    <message>
        <source>no answer</source>
        <translation>keine Antwort</translation>
    </message>
    <message>
        <source>refused</source>
        <translation>abgelehnt</translation>
    </message>
    <message>
        <source>something speaks on this line without a pause, so nothing can be asked; find out what it is, or disconnect it</source>
        <translation>auf dieser Leitung spricht etwas ohne Pause, es kann nichts gefragt werden; herausfinden, was es ist, oder es trennen</translation>
    </message>
    <message>
        <source>unit {unit}</source>
        <translation>Gerät {unit}</translation>
    </message>
</context>
<context>
    <name>follower</name>
    <message>
        <source>&apos;{deed}&apos; is not NAME.WHAT=VALUE, such as fan.jammed=on</source>
        <translation>„{deed}“ ist nicht NAME.WHAT=VALUE, etwa fan.jammed=on</translation>
    </message>
    <message>
        <source>S-ramp time</source>
        <translation>Rampenverrundung</translation>
    </message>
    <message>
        <source>a text is only possible with the data type &apos;string&apos;</source>
        <translation>ein Text ist nur beim Datentyp „string“ möglich</translation>
    </message>
    <message>
        <source>cannot listen on {host}:{port}</source>
        <translation>{host}:{port} kann nicht geöffnet werden</translation>
    </message>
    <message>
        <source>cannot open the serial port {device}</source>
        <translation>der serielle Anschluss {device} kann nicht geöffnet werden</translation>
    </message>
    <message>
        <source>communication time-out</source>
        <translation>Kommunikations-Timeout</translation>
    </message>
    <message>
        <source>communication time-out: no request in time</source>
        <translation>Kommunikations-Timeout: keine Anfrage innerhalb der Zeit</translation>
    </message>
    <message>
        <source>control word</source>
        <translation>Steuerwort</translation>
    </message>
    <message>
        <source>device &apos;{follower}&apos; cannot be simulated: start_value {value} of signal &apos;{signal}&apos; does not fit: {why}</source>
        <translation>Gerät „{follower}“ kann nicht simuliert werden: start_value {value} von Signal „{signal}“ passt nicht: {why}</translation>
    </message>
    <message>
        <source>device &apos;{follower}&apos; has no input or signal &apos;{signal}&apos;</source>
        <translation>Gerät „{follower}“ hat weder Eingang noch Signal „{signal}“</translation>
    </message>
    <message>
        <source>device &apos;{name}&apos; has unit address {unit}, which is for Modbus TCP only; on a serial line use 1 to 247</source>
        <translation>Gerät „{name}“ hat die Geräteadresse {unit}, die es nur bei Modbus TCP gibt; an einer seriellen Leitung 1 bis 247 verwenden</translation>
    </message>
    <message>
        <source>devices &apos;{one}&apos; and &apos;{other}&apos; have the same unit address {unit} and cannot be simulated at one endpoint; choose one of them by name</source>
        <translation>die Geräte „{one}“ und „{other}“ haben dieselbe Geräteadresse {unit} und können nicht an einem Endpunkt simuliert werden; eines davon mit Namen wählen</translation>
    </message>
    <message>
        <source>direction lock</source>
        <translation>Richtungssperre</translation>
    </message>
    <message>
        <source>external fault input</source>
        <translation>Eingang externe Störung</translation>
    </message>
    <message>
        <source>fault</source>
        <translation>Störung</translation>
    </message>
    <message>
        <source>fault reaction active</source>
        <translation>Störungsreaktion aktiv</translation>
    </message>
    <message>
        <source>motor overload: overcurrent for too long</source>
        <translation>Motorüberlast: zu lange zu hoher Strom</translation>
    </message>
    <message>
        <source>motor stalled: at the torque limit for too long</source>
        <translation>Motor blockiert: zu lange an der Drehmomentgrenze</translation>
    </message>
    <message>
        <source>no fault</source>
        <translation>keine Störung</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>not ready to switch on</source>
        <translation>nicht einschaltbereit</translation>
    </message>
    <message>
        <source>operation enabled</source>
        <translation>Betrieb freigegeben</translation>
    </message>
    <message>
        <source>overcurrent: motor pulled out</source>
        <translation>Überstrom: Motor gekippt (Kippmoment überschritten)</translation>
    </message>
    <message>
        <source>overvoltage of the DC link</source>
        <translation>Überspannung im Zwischenkreis</translation>
    </message>
    <message>
        <source>preset speed 1</source>
        <translation>Festdrehzahl 1</translation>
    </message>
    <message>
        <source>preset speed 2</source>
        <translation>Festdrehzahl 2</translation>
    </message>
    <message>
        <source>preset speed 3</source>
        <translation>Festdrehzahl 3</translation>
    </message>
    <message>
        <source>preset speed 4</source>
        <translation>Festdrehzahl 4</translation>
    </message>
    <message>
        <source>quick stop active</source>
        <translation>Schnellhalt aktiv</translation>
    </message>
    <message>
        <source>ramp-down time</source>
        <translation>Rücklaufzeit</translation>
    </message>
    <message>
        <source>ramp-up time</source>
        <translation>Hochlaufzeit</translation>
    </message>
    <message>
        <source>ready to switch on</source>
        <translation>einschaltbereit</translation>
    </message>
    <message>
        <source>signal &apos;{signal}&apos; cannot be set to {value}: {why}</source>
        <translation>Signal „{signal}“ kann nicht auf {value} gesetzt werden: {why}</translation>
    </message>
    <message>
        <source>signal &apos;{signal}&apos;: {why}</source>
        <translation>Signal „{signal}“: {why}</translation>
    </message>
    <message>
        <source>speed reference</source>
        <translation>Drehzahlsollwert</translation>
    </message>
    <message>
        <source>switch on disabled</source>
        <translation>Einschaltsperre</translation>
    </message>
    <message>
        <source>switched on</source>
        <translation>eingeschaltet</translation>
    </message>
    <message>
        <source>the lines have different serial settings and cannot be simulated on one serial port; choose the devices of one line by name</source>
        <translation>die Leitungen haben verschiedene serielle Einstellungen und können nicht an einem Anschluss simuliert werden; die Geräte einer Leitung mit Namen wählen</translation>
    </message>
    <message>
        <source>the preset must be 0 to 4, not &apos;{value}&apos;</source>
        <translation>die Festdrehzahl muss 0 bis 4 sein, nicht „{value}“</translation>
    </message>
    <message>
        <source>the supply must be 0 to 150 %, not &apos;{value}&apos;</source>
        <translation>die Versorgung muss 0 bis 150 % sein, nicht „{value}“</translation>
    </message>
    <message>
        <source>there is no device &apos;{name}&apos; in the project</source>
        <translation>das Projekt hat kein Gerät „{name}“</translation>
    </message>
    <message>
        <source>there is no device &apos;{name}&apos; to simulate</source>
        <translation>es gibt kein Gerät „{name}“ zum Simulieren</translation>
    </message>
    <message>
        <source>there is no device to simulate on line &apos;{name}&apos;; add one to the project</source>
        <translation>Leitung „{name}“ hat kein Gerät zum Simulieren; im Projekt eines anlegen</translation>
    </message>
    <message>
        <source>there is no device to simulate; add one to the project, or choose an existing one</source>
        <translation>es gibt kein Gerät zum Simulieren; im Projekt eines anlegen oder ein vorhandenes wählen</translation>
    </message>
    <message>
        <source>there is no fault &apos;{value}&apos;; choose from: {known}</source>
        <translation>es gibt keine Störung „{value}“; zur Wahl stehen: {known}</translation>
    </message>
    <message>
        <source>there is no line &apos;{name}&apos; in the project</source>
        <translation>das Projekt hat keine Leitung „{name}“</translation>
    </message>
    <message>
        <source>there is no simulated device &apos;{name}&apos;; choose from: {known}</source>
        <translation>es gibt kein simuliertes Gerät „{name}“; vorhanden: {known}</translation>
    </message>
    <message>
        <source>undervoltage of the DC link</source>
        <translation>Unterspannung im Zwischenkreis</translation>
    </message>
    <message>
        <source>use on or off, not &apos;{value}&apos;</source>
        <translation>möglich sind on und off, nicht „{value}“</translation>
    </message>
    <message>
        <source>{lacking}; choose from: {names}</source>
        <translation>{lacking}; vorhanden: {names}</translation>
    </message>
    <message>
        <source>{name} of the drive (register {register}) must be {low} to {high}</source>
        <translation>{name} des Antriebs (Register {register}) muss {low} bis {high} sein</translation>
    </message>
    <message>
        <source>{name} of the drive must be {low} to {high} {unit}</source>
        <translation>{name} des Antriebs muss {low} bis {high} {unit} sein</translation>
    </message>
    <message>
        <source>{place} with these settings: {text}; change baud, parity or stop_bits</source>
        <translation>{place} mit diesen Einstellungen: {text}; baud, parity oder stop_bits ändern</translation>
    </message>
    <message>
        <source>{place}: it is in use by another program; close that program first</source>
        <translation>{place}: belegt durch ein anderes Programm; dieses zuerst schließen</translation>
    </message>
    <message>
        <source>{place}: permission denied; on most systems the user must be in the group that owns the port</source>
        <translation>{place}: keine Berechtigung; auf den meisten Systemen muss der Benutzer in der Gruppe sein, der der Anschluss gehört</translation>
    </message>
    <message>
        <source>{place}: port not found; plug the adapter in, or check the name</source>
        <translation>{place}: Anschluss nicht vorhanden; den Adapter einstecken oder den Namen prüfen</translation>
    </message>
    <message>
        <source>{place}: ports below 1024 need special rights on this system; choose one from 1024, such as 5020</source>
        <translation>{place}: Ports unter 1024 brauchen auf diesem System besondere Rechte; einen ab 1024 wählen, etwa 5020</translation>
    </message>
    <message>
        <source>{place}: the port is in use by another program; close it, or choose another port (0 chooses a free one)</source>
        <translation>{place}: der Port ist durch ein anderes Programm belegt; dieses schließen oder einen anderen Port wählen (0 wählt einen freien)</translation>
    </message>
    <message>
        <source>{place}: this computer cannot resolve the host name; use 127.0.0.1, or 0.0.0.0 for all addresses</source>
        <translation>{place}: dieser Rechner kann den Hostnamen nicht auflösen; 127.0.0.1 verwenden, oder 0.0.0.0 für alle Adressen</translation>
    </message>
    <message>
        <source>{place}: this computer does not have this address; use 127.0.0.1, or 0.0.0.0 for all addresses</source>
        <translation>{place}: dieser Rechner hat diese Adresse nicht; 127.0.0.1 verwenden, oder 0.0.0.0 für alle Adressen</translation>
    </message>
    <message>
        <source>{place}: this is not a serial port; check its name</source>
        <translation>{place}: das ist kein serieller Anschluss; den Namen prüfen</translation>
    </message>
    <message>
        <source>{what} must be a number from {least} to {most}, not &apos;{text}&apos;</source>
        <translation>{what} muss eine Zahl von {least} bis {most} sein, nicht „{text}“</translation>
    </message>
</context>
<context>
    <name>matching</name>
    <message>
        <source>&apos;{text}&apos; does not begin with a number; enter what the display shows: 25.0 Hz</source>
        <translation>„{text}“ beginnt nicht mit einer Zahl; eingeben, was die Anzeige zeigt: 25.0 Hz</translation>
    </message>
    <message>
        <source>0 is no evidence, since many registers contain 0 (reading {numbers}); read it at another value.</source>
        <translation>0 beweist nichts, da viele Register 0 enthalten (Ablesung {numbers}); bei einem anderen Wert ablesen.</translation>
    </message>
    <message>
        <source>0 to 50 as 0 to 10000; also steps of 0.005</source>
        <translation>0 bis 50 als 0 bis 10000; auch Schritte von 0.005</translation>
    </message>
    <message>
        <source>0 to 60 as 0 to 10000</source>
        <translation>0 bis 60 als 0 bis 10000</translation>
    </message>
    <message>
        <source>4000h is 100 %</source>
        <translation>4000h ist 100 %</translation>
    </message>
    <message>
        <source>4000h is 50</source>
        <translation>4000h ist 50</translation>
    </message>
    <message>
        <source>4000h is 60</source>
        <translation>4000h ist 60</translation>
    </message>
    <message>
        <source>6C00h is 100 %, as of analogue inputs</source>
        <translation>6C00h ist 100 %, wie bei Analogeingängen</translation>
    </message>
    <message>
        <source>7FFFh is 100 %</source>
        <translation>7FFFh ist 100 %</translation>
    </message>
    <message>
        <source>An uneven value such as {value} says more than a round one, which many registers contain.</source>
        <translation>Ein krummer Wert wie {value} sagt mehr als ein runder, den viele Register enthalten.</translation>
    </message>
    <message>
        <source>No register agrees with all readings by a usual scale. Remove a reading that was mistyped, or during which the value moved. A third reading at another value finds any straight line.</source>
        <translation>Kein Register passt mit einer üblichen Skalierung zu allen Ablesungen. Eine Ablesung entfernen, die vertippt ist oder während der sich der Wert bewegte. Eine dritte bei einem anderen Wert findet jede Gerade.</translation>
    </message>
    <message>
        <source>No register agrees with all readings, which have different units: {units}. All of them must be of one and the same value; remove the others.</source>
        <translation>Kein Register passt zu allen Ablesungen; diese haben verschiedene Einheiten: {units}. Alle müssen denselben Wert betreffen; die übrigen entfernen.</translation>
    </message>
    <message>
        <source>No register agrees with all readings. Check what was typed; perhaps the value changed between the display and the reading, or it is in a table or a range that was not read.</source>
        <translation>Kein Register passt zu allen Ablesungen. Die Eingaben prüfen; vielleicht hat sich der Wert zwischen Anzeige und Lesen geändert, oder er steht in einer Tabelle oder einem Bereich, der nicht gelesen wurde.</translation>
    </message>
    <message>
        <source>No register changed between the readings. Were the registers read again after the value had changed? Perhaps it is in a table or a range that was not read.</source>
        <translation>Kein Register hat sich zwischen den Ablesungen geändert. Wurden die Register nach der Änderung des Wertes neu gelesen? Vielleicht steht er in einer Tabelle oder einem Bereich, der nicht gelesen wurde.</translation>
    </message>
    <message>
        <source>One value alone is no evidence: change the value at the device, then read and type again.</source>
        <translation>Ein einzelner Wert beweist nichts: den Wert am Gerät ändern, dann erneut lesen und eingeben.</translation>
    </message>
    <message>
        <source>Other registers are possible as well: {count}. Read it again at a quite different value.</source>
        <translation>Weitere mögliche Register: {count}. Bei einem ganz anderen Wert erneut lesen.</translation>
    </message>
    <message>
        <source>Read it again at another value, to be sure.</source>
        <translation>Zur Sicherheit bei einem anderen Wert erneut lesen.</translation>
    </message>
    <message>
        <source>Reading {numbers}: {register} agrees if the last digit was typed one too high or too low, or the display cuts off.</source>
        <translation>Ablesung {numbers}: {register} passt, falls die letzte Stelle um eins vertippt ist oder die Anzeige abschneidet.</translation>
    </message>
    <message>
        <source>The same value at every reading: {registers}. A set point and its actual value differ while the machine runs up: type a value on its way with a coarser step, and press Enter as the display passes it.</source>
        <translation>Bei jeder Ablesung derselbe Wert: {registers}. Soll- und Istwert unterscheiden sich, während die Maschine hochläuft: einen Wert auf dem Weg mit gröberem Schritt eintippen und die Eingabetaste drücken, wenn die Anzeige ihn erreicht.</translation>
    </message>
    <message>
        <source>The same value once more is no evidence (reading {numbers}); change it at the device first.</source>
        <translation>Derselbe Wert noch einmal beweist nichts (Ablesung {numbers}); ihn zuerst am Gerät ändern.</translation>
    </message>
    <message>
        <source>The shortest data type is told: {register} as {encoding}. It may be the low word of a longer number ({others}); a value above {value} would tell.</source>
        <translation>Genannt ist der kürzeste Datentyp: {register} als {encoding}. Es kann das Low-Word einer längeren Zahl sein ({others}); ein Wert über {value} würde es zeigen.</translation>
    </message>
    <message>
        <source>Whether {register} has a sign is open: a value below 0 would tell, or one above {value}.</source>
        <translation>{register}: Ob mit Vorzeichen, ist offen; ein Wert unter 0 würde es zeigen oder einer über {value}.</translation>
    </message>
    <message>
        <source>a converter of 12 bits: FFFh is 100 %</source>
        <translation>ein Wandler mit 12 Bit: FFFh ist 100 %</translation>
    </message>
    <message>
        <source>fifths</source>
        <translation>Fünftel</translation>
    </message>
    <message>
        <source>four decimals</source>
        <translation>vier Nachkommastellen</translation>
    </message>
    <message>
        <source>halves, as of temperatures</source>
        <translation>Halbe, etwa bei Temperaturen</translation>
    </message>
    <message>
        <source>hundreds</source>
        <translation>Hunderter</translation>
    </message>
    <message>
        <source>in this order it changes little by little, in any other by leaps</source>
        <translation>in dieser Reihenfolge ändert sie sich in kleinen Schritten, in jeder anderen in Sprüngen</translation>
    </message>
    <message>
        <source>it did not change; read it again after a while, or at another value</source>
        <translation>sie hat sich nicht geändert; später oder bei einem anderen Wert erneut lesen</translation>
    </message>
    <message>
        <source>no scale through zero fits all readings</source>
        <translation>keine Skalierung durch null passt zu allen Ablesungen</translation>
    </message>
    <message>
        <source>no straight line fits all readings: one of them is mistyped, or was taken while the value changed</source>
        <translation>keine Gerade passt zu allen Ablesungen: eine ist vertippt oder wurde abgelesen, während sich der Wert änderte</translation>
    </message>
    <message>
        <source>not likely: the number would be very large, very small or none</source>
        <translation>unwahrscheinlich: die Zahl wäre sehr groß, sehr klein oder keine</translation>
    </message>
    <message>
        <source>one decimal</source>
        <translation>eine Nachkommastelle</translation>
    </message>
    <message>
        <source>only in this order is it a number of a usual size</source>
        <translation>nur in dieser Reihenfolge ist es eine Zahl üblicher Größe</translation>
    </message>
    <message>
        <source>possible</source>
        <translation>möglich</translation>
    </message>
    <message>
        <source>quarters</source>
        <translation>Viertel</translation>
    </message>
    <message>
        <source>steps of 0.02</source>
        <translation>Schritte von 0.02</translation>
    </message>
    <message>
        <source>steps of 0.05</source>
        <translation>Schritte von 0.05</translation>
    </message>
    <message>
        <source>tens</source>
        <translation>Zehner</translation>
    </message>
    <message>
        <source>the readings are too close together to tell a scale; read it again at another value</source>
        <translation>die Ablesungen liegen für eine Skalierung zu nah beieinander; bei einem anderen Wert erneut lesen</translation>
    </message>
    <message>
        <source>the readings leave no room for a scale that can be written; read it once more</source>
        <translation>die Ablesungen lassen keine Skalierung zu, die sich schreiben lässt; noch einmal lesen</translation>
    </message>
    <message>
        <source>the register held the same number at every reading; read it again at another value</source>
        <translation>das Register enthielt bei jeder Ablesung dieselbe Zahl; bei einem anderen Wert erneut lesen</translation>
    </message>
    <message>
        <source>the step of a display is greater than 0</source>
        <translation>der Schritt einer Anzeige ist größer als 0</translation>
    </message>
    <message>
        <source>the value itself</source>
        <translation>der Wert selbst</translation>
    </message>
    <message>
        <source>thousands, as where a device counts kilowatts and shows watts</source>
        <translation>Tausender, etwa wenn ein Gerät Kilowatt zählt und Watt anzeigt</translation>
    </message>
    <message>
        <source>three decimals</source>
        <translation>drei Nachkommastellen</translation>
    </message>
    <message>
        <source>two decimals; also 0 to 100 % as 0 to 10000</source>
        <translation>zwei Nachkommastellen; auch 0 bis 100 % als 0 bis 10000</translation>
    </message>
    <message>
        <source>{register} agrees by chance, most likely. Remove a reading that was mistyped, or during which the value moved, and read it again while it stands still.</source>
        <translation>{register} passt höchstwahrscheinlich nur zufällig. Eine Ablesung entfernen, die vertippt ist oder während der sich der Wert bewegte, und neu ablesen, während er steht.</translation>
    </message>
</context>
<context>
    <name>panel</name>
    <message>
        <source>a text cannot be changed</source>
        <translation>ein Text ist nicht änderbar</translation>
    </message>
    <message>
        <source>cannot toggle: {why}</source>
        <translation>Umschalten nicht möglich: {why}</translation>
    </message>
    <message>
        <source>idle for {seconds} s</source>
        <translation>{seconds} s ohne Bedienung</translation>
    </message>
    <message>
        <source>its limits are outside the range of its registers</source>
        <translation>seine Grenzen liegen außerhalb des Bereichs seiner Register</translation>
    </message>
    <message>
        <source>key {key}</source>
        <translation>Taste {key}</translation>
    </message>
    <message>
        <source>no choice is allowed</source>
        <translation>keine Auswahl ist erlaubt</translation>
    </message>
    <message>
        <source>not a number</source>
        <translation>keine Zahl</translation>
    </message>
    <message>
        <source>nothing to enter here</source>
        <translation>hier ist nichts einzugeben</translation>
    </message>
    <message>
        <source>override ended</source>
        <translation>Vorrangbild beendet</translation>
    </message>
    <message>
        <source>project edited</source>
        <translation>Projekt bearbeitet</translation>
    </message>
    <message>
        <source>the panel has only one language</source>
        <translation>das Panel hat nur eine Sprache</translation>
    </message>
    <message>
        <source>there is no held value &apos;{name}&apos;</source>
        <translation>es gibt keinen Panelwert „{name}“</translation>
    </message>
    <message>
        <source>there is no signal &apos;{signal}&apos;</source>
        <translation>es gibt kein Signal „{signal}“</translation>
    </message>
    <message>
        <source>there is no value</source>
        <translation>kein Wert vorhanden</translation>
    </message>
    <message>
        <source>{signal} equals {value}</source>
        <translation>{signal} ist gleich {value}</translation>
    </message>
    <message>
        <source>{signal} is above {value}</source>
        <translation>{signal} ist über {value}</translation>
    </message>
    <message>
        <source>{signal} is below {value}</source>
        <translation>{signal} ist unter {value}</translation>
    </message>
    <message>
        <source>{signal} is clear</source>
        <translation>{signal} ist nicht gesetzt</translation>
    </message>
    <message>
        <source>{signal} is set</source>
        <translation>{signal} ist gesetzt</translation>
    </message>
</context>
<context>
    <name>parts</name>
    <message>
        <source>a bit</source>
        <translation>einem Bit</translation>
    </message>
    <message>
        <source>a bit signal</source>
        <translation>einem Bitsignal</translation>
    </message>
    <message>
        <source>a blinking part</source>
        <translation>einer blinkenden Stelle</translation>
    </message>
    <message>
        <source>a condition</source>
        <translation>einer Bedingung</translation>
    </message>
    <message>
        <source>a device</source>
        <translation>einem Gerät</translation>
    </message>
    <message>
        <source>a field</source>
        <translation>einem Feld</translation>
    </message>
    <message>
        <source>a held value</source>
        <translation>einem Panelwert</translation>
    </message>
    <message>
        <source>a held value reference</source>
        <translation>einem Verweis auf einen Panelwert</translation>
    </message>
    <message>
        <source>a line of kind {kind}</source>
        <translation>einer Leitung der Art {kind}</translation>
    </message>
    <message>
        <source>a panel</source>
        <translation>einem Panel</translation>
    </message>
    <message>
        <source>a project</source>
        <translation>einem Projekt</translation>
    </message>
    <message>
        <source>a range that is never read</source>
        <translation>einem nie gelesenen Bereich</translation>
    </message>
    <message>
        <source>a scale</source>
        <translation>einer Skalierung</translation>
    </message>
    <message>
        <source>a screen</source>
        <translation>einem Bild</translation>
    </message>
    <message>
        <source>a screen change</source>
        <translation>einem Bildwechsel</translation>
    </message>
    <message>
        <source>a signal</source>
        <translation>einem Signal</translation>
    </message>
    <message>
        <source>an accepted finding</source>
        <translation>einem akzeptierten Prüfergebnis</translation>
    </message>
    <message>
        <source>an action</source>
        <translation>einer Aktion</translation>
    </message>
    <message>
        <source>the entry keys</source>
        <translation>den Eingabetasten</translation>
    </message>
    <message>
        <source>the simulation of a device</source>
        <translation>der Simulation eines Geräts</translation>
    </message>
</context>
<context>
    <name>past</name>
    <message>
        <source>Enter the time of day at which the display showed it, such as {begin}.</source>
        <translation>Die Uhrzeit eingeben, zu der die Anzeige es gezeigt hat, etwa {begin}.</translation>
    </message>
    <message>
        <source>Nothing is known of that time: it goes from {begin} to {end}.</source>
        <translation>Von dieser Uhrzeit ist nichts bekannt: Es geht von {begin} bis {end}.</translation>
    </message>
    <message>
        <source>what was heard</source>
        <translation>dem Mitgehörten</translation>
    </message>
    <message>
        <source>{file}, {device}</source>
        <translation>{file}, {device}</translation>
    </message>
</context>
<context>
    <name>phrases</name>
    <message>
        <source>(choose)</source>
        <translation>(wählen)</translation>
    </message>
    <message>
        <source>after {seconds} s without a key press</source>
        <translation>nach {seconds} s ohne Tastendruck</translation>
    </message>
    <message>
        <source>clears {signal}</source>
        <translation>setzt {signal} zurück</translation>
    </message>
    <message>
        <source>every screen</source>
        <translation>jedes Bild</translation>
    </message>
    <message>
        <source>key {key}</source>
        <translation>Taste {key}</translation>
    </message>
    <message>
        <source>sets {signal}</source>
        <translation>setzt {signal}</translation>
    </message>
    <message>
        <source>sets {signal} while the key is held</source>
        <translation>setzt {signal}, solange die Taste gehalten wird</translation>
    </message>
    <message>
        <source>starts entry</source>
        <translation>beginnt die Eingabe</translation>
    </message>
    <message>
        <source>starts entry of {signal}</source>
        <translation>beginnt die Eingabe von {signal}</translation>
    </message>
    <message>
        <source>switches to the next language</source>
        <translation>schaltet auf die nächste Sprache um</translation>
    </message>
    <message>
        <source>the next screen</source>
        <translation>das nächste Bild</translation>
    </message>
    <message>
        <source>the previous screen</source>
        <translation>das vorige Bild</translation>
    </message>
    <message>
        <source>the value of {signal}</source>
        <translation>den Wert von {signal}</translation>
    </message>
    <message>
        <source>toggles {signal}</source>
        <translation>schaltet {signal} um</translation>
    </message>
    <message>
        <source>when {condition}</source>
        <translation>wenn {condition}</translation>
    </message>
    <message>
        <source>when {signal} {sign} {value}</source>
        <translation>wenn {signal} {sign} {value}</translation>
    </message>
    <message>
        <source>writes {what} to {signal}</source>
        <translation>schreibt {what} in {signal}</translation>
    </message>
    <message>
        <source>{signal} equals {value}</source>
        <translation>{signal} gleich {value} ist</translation>
    </message>
    <message>
        <source>{signal} is above {value}</source>
        <translation>{signal} über {value} liegt</translation>
    </message>
    <message>
        <source>{signal} is below {value}</source>
        <translation>{signal} unter {value} liegt</translation>
    </message>
    <message>
        <source>{signal} is clear</source>
        <translation>{signal} nicht gesetzt ist</translation>
    </message>
    <message>
        <source>{signal} is set</source>
        <translation>{signal} gesetzt ist</translation>
    </message>
</context>
<context>
    <name>project</name>
    <message>
        <source>&apos;&apos;</source>
        <translation>„“</translation>
    </message>
    <message>
        <source>&apos;at&apos; and &apos;width&apos; belong together; without both all cells blink</source>
        <translation>„at“ und „width“ gehören zusammen; ohne beide blinken alle Zellen</translation>
    </message>
    <message>
        <source>&apos;do = &quot;next-language&quot;&apos; has no signal; it is set by the panel&apos;s &apos;language&apos;</source>
        <translation>„do = &quot;next-language&quot;“ hat kein Signal; es wird mit „language“ des Panels eingestellt</translation>
    </message>
    <message>
        <source>&apos;do = &quot;{do}&quot;&apos; is only possible with a key</source>
        <translation>„do = &quot;{do}&quot;“ ist nur mit einer Taste möglich</translation>
    </message>
    <message>
        <source>&apos;do = &quot;{do}&quot;&apos; needs a signal</source>
        <translation>„do = &quot;{do}&quot;“ braucht ein Signal</translation>
    </message>
    <message>
        <source>&apos;format&apos; is missing</source>
        <translation>„format“ fehlt</translation>
    </message>
    <message>
        <source>&apos;is = &quot;{is_}&quot;&apos; has no value</source>
        <translation>„is = &quot;{is_}&quot;“ hat keinen Wert</translation>
    </message>
    <message>
        <source>&apos;is = &quot;{is_}&quot;&apos; needs a value to compare with</source>
        <translation>„is = &quot;{is_}&quot;“ braucht einen Vergleichswert</translation>
    </message>
    <message>
        <source>&apos;stops&apos; is only for actions that write a value, not for &apos;{do}&apos;</source>
        <translation>„stops“ ist nur bei Aktionen möglich, die einen Wert schreiben, nicht bei „{do}“</translation>
    </message>
    <message>
        <source>&apos;to = &quot;{to}&quot;&apos; is only possible with a key</source>
        <translation>„to = &quot;{to}&quot;“ ist nur mit einer Taste möglich</translation>
    </message>
    <message>
        <source>&apos;value&apos; is required for &apos;do = &quot;write&quot;&apos;, and only allowed there</source>
        <translation>„value“ ist bei „do = &quot;write&quot;“ nötig und nur dort erlaubt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is above {value}</source>
        <translation>„{signal}“ über {value} liegt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is below {value}</source>
        <translation>„{signal}“ unter {value} liegt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is clear</source>
        <translation>„{signal}“ nicht gesetzt ist</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is set</source>
        <translation>„{signal}“ gesetzt ist</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is set to 0</source>
        <translation>„{signal}“ wird auf 0 gesetzt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is set to 1</source>
        <translation>„{signal}“ wird auf 1 gesetzt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is toggled between 0 and 1</source>
        <translation>„{signal}“ wird zwischen 0 und 1 umgeschaltet</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is {value}</source>
        <translation>„{signal}“ gleich {value} ist</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos;, once written, is rewritten every {every} ms</source>
        <translation>„{signal}“ wird nach dem ersten Schreiben alle {every} ms neu geschrieben</translation>
    </message>
    <message>
        <source>&apos;{value}&apos; is a text, but signal &apos;{name}&apos; is a number</source>
        <translation>„{value}“ ist ein Text, Signal „{name}“ aber eine Zahl</translation>
    </message>
    <message>
        <source>DC-link voltage</source>
        <translation>Zwischenkreisspannung</translation>
    </message>
    <message>
        <source>a bit can only be written into a register that has been read; read it first</source>
        <translation>ein Bit kann nur in ein gelesenes Register geschrieben werden; zuerst lesen</translation>
    </message>
    <message>
        <source>a date or time</source>
        <translation>ein Datum oder eine Zeit</translation>
    </message>
    <message>
        <source>a folder or a system device has this name; choose another name</source>
        <translation>ein Ordner oder ein Systemgerät heißt so; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>a held value can start something, so it cannot be a stop (&apos;stops&apos;)</source>
        <translation>ein Panelwert kann etwas starten und deshalb kein Stopp („stops“) sein</translation>
    </message>
    <message>
        <source>a list</source>
        <translation>eine Liste</translation>
    </message>
    <message>
        <source>a motor with {poles} poles runs slightly below {field} 1/min at 50 Hz, not at {rated}</source>
        <translation>ein Motor mit {poles} Polen läuft bei 50 Hz etwas langsamer als {field} 1/min, nicht mit {rated}</translation>
    </message>
    <message>
        <source>a number</source>
        <translation>eine Zahl</translation>
    </message>
    <message>
        <source>a number has too many digits</source>
        <translation>eine Zahl hat zu viele Ziffern</translation>
    </message>
    <message>
        <source>a number or a text</source>
        <translation>eine Zahl oder ein Text</translation>
    </message>
    <message>
        <source>a number or { from = &quot;the name of a held value&quot; }</source>
        <translation>eine Zahl oder { from = &quot;Name eines Panelwerts&quot; }</translation>
    </message>
    <message>
        <source>a number with decimals</source>
        <translation>eine Zahl mit Nachkommastellen</translation>
    </message>
    <message>
        <source>a screen change needs exactly one of &apos;key&apos;, &apos;when&apos; and &apos;idle_s&apos;</source>
        <translation>ein Bildwechsel braucht genau eines von „key“, „when“ und „idle_s“</translation>
    </message>
    <message>
        <source>a smaller number</source>
        <translation>eine kleinere Zahl</translation>
    </message>
    <message>
        <source>a table</source>
        <translation>eine Tabelle</translation>
    </message>
    <message>
        <source>a text</source>
        <translation>ein Text</translation>
    </message>
    <message>
        <source>a value of {count} registers is written with function 16, which device &apos;{follower}&apos; does not offer</source>
        <translation>ein Wert von {count} Registern wird mit Funktion 16 geschrieben, die Gerät „{follower}“ nicht anbietet</translation>
    </message>
    <message>
        <source>a whole number</source>
        <translation>eine ganze Zahl</translation>
    </message>
    <message>
        <source>action</source>
        <translation>Aktion</translation>
    </message>
    <message>
        <source>add [panel] with start = the name of the first screen</source>
        <translation>[panel] mit start = Name des ersten Bildes einfügen</translation>
    </message>
    <message>
        <source>add it to the panel&apos;s &apos;languages&apos;, after the first</source>
        <translation>in „languages“ des Panels nach der ersten eintragen</translation>
    </message>
    <message>
        <source>an action needs exactly one of &apos;key&apos; and &apos;when&apos;</source>
        <translation>eine Aktion braucht genau eines von „key“ und „when“</translation>
    </message>
    <message>
        <source>an action with a condition works on every screen and has no &apos;from&apos;</source>
        <translation>eine Aktion mit Bedingung wirkt auf jedem Bild und hat kein „from“</translation>
    </message>
    <message>
        <source>an override (&apos;when&apos;) works on every screen and has no &apos;from&apos;</source>
        <translation>ein Vorrangbild („when“) gilt auf jedem Bild und hat kein „from“</translation>
    </message>
    <message>
        <source>and {count} more</source>
        <translation>und {count} weitere</translation>
    </message>
    <message>
        <source>another program is saving this file; try again</source>
        <translation>ein anderes Programm speichert diese Datei gerade; erneut versuchen</translation>
    </message>
    <message>
        <source>ask its owner for permission</source>
        <translation>den Besitzer um die Berechtigung bitten</translation>
    </message>
    <message>
        <source>at reference</source>
        <translation>Sollwert erreicht</translation>
    </message>
    <message>
        <source>bit</source>
        <translation>Bit</translation>
    </message>
    <message>
        <source>blink</source>
        <translation>Blinken</translation>
    </message>
    <message>
        <source>can have at most {most}</source>
        <translation>kann höchstens {most} haben</translation>
    </message>
    <message>
        <source>can have at most {most}, not {count}</source>
        <translation>kann höchstens {most} haben, nicht {count}</translation>
    </message>
    <message>
        <source>cannot be called {name}</source>
        <translation>kann nicht {name} heißen</translation>
    </message>
    <message>
        <source>case</source>
        <translation>Fall</translation>
    </message>
    <message>
        <source>check the name and the disk</source>
        <translation>Namen und Datenträger prüfen</translation>
    </message>
    <message>
        <source>check the name and the folder</source>
        <translation>Namen und Ordner prüfen</translation>
    </message>
    <message>
        <source>choose a project file</source>
        <translation>eine Projektdatei wählen</translation>
    </message>
    <message>
        <source>choose a project file in it</source>
        <translation>eine Projektdatei darin wählen</translation>
    </message>
    <message>
        <source>clean-up step</source>
        <translation>Aufräumschritt</translation>
    </message>
    <message>
        <source>command: control word (IEC 61800-7-201)</source>
        <translation>Befehl: Steuerwort (IEC 61800-7-201)</translation>
    </message>
    <message>
        <source>command: fault reset (rising edge)</source>
        <translation>Befehl: Störung quittieren (steigende Flanke)</translation>
    </message>
    <message>
        <source>command: quick stop</source>
        <translation>Befehl: Schnellhalt</translation>
    </message>
    <message>
        <source>command: ramp-down time</source>
        <translation>Befehl: Rücklaufzeit</translation>
    </message>
    <message>
        <source>command: ramp-up time</source>
        <translation>Befehl: Hochlaufzeit</translation>
    </message>
    <message>
        <source>command: reverse</source>
        <translation>Befehl: rückwärts</translation>
    </message>
    <message>
        <source>command: run</source>
        <translation>Befehl: Start</translation>
    </message>
    <message>
        <source>command: speed reference</source>
        <translation>Befehl: Drehzahlsollwert</translation>
    </message>
    <message>
        <source>contains half of a surrogate pair, which cannot be saved</source>
        <translation>enthält ein halbes Zeichenpaar (Surrogat), das nicht gespeichert werden kann</translation>
    </message>
    <message>
        <source>control word of IEC 61800-7-201</source>
        <translation>Steuerwort nach IEC 61800-7-201</translation>
    </message>
    <message>
        <source>current</source>
        <translation>Strom</translation>
    </message>
    <message>
        <source>device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>device {name} does not exist</source>
        <translation>Gerät {name} gibt es nicht</translation>
    </message>
    <message>
        <source>device {number}</source>
        <translation>Gerät {number}</translation>
    </message>
    <message>
        <source>did you mean {name}?</source>
        <translation>ist {name} gemeint?</translation>
    </message>
    <message>
        <source>each device needs a unique name</source>
        <translation>jedes Gerät braucht einen eigenen Namen</translation>
    </message>
    <message>
        <source>each key needs a unique name</source>
        <translation>jede Taste braucht einen eigenen Namen</translation>
    </message>
    <message>
        <source>each line needs a unique name</source>
        <translation>jede Leitung braucht einen eigenen Namen</translation>
    </message>
    <message>
        <source>each screen needs a unique name</source>
        <translation>jedes Bild braucht einen eigenen Namen</translation>
    </message>
    <message>
        <source>each signal needs a unique name</source>
        <translation>jedes Signal braucht einen eigenen Namen</translation>
    </message>
    <message>
        <source>electrical power</source>
        <translation>elektrische Leistung</translation>
    </message>
    <message>
        <source>end of the file</source>
        <translation>Ende der Datei</translation>
    </message>
    <message>
        <source>enter the first screen</source>
        <translation>das erste Bild angeben</translation>
    </message>
    <message>
        <source>entry</source>
        <translation>Eingabe</translation>
    </message>
    <message>
        <source>fault active</source>
        <translation>Störung steht an</translation>
    </message>
    <message>
        <source>fault code, 0 = none</source>
        <translation>Störungscode, 0 = keine</translation>
    </message>
    <message>
        <source>field</source>
        <translation>Feld</translation>
    </message>
    <message>
        <source>file not found</source>
        <translation>Datei nicht gefunden</translation>
    </message>
    <message>
        <source>has more than {most} digits</source>
        <translation>hat mehr als {most} Ziffern</translation>
    </message>
    <message>
        <source>has the same name as device {number}, {name}</source>
        <translation>heißt wie Gerät {number}, {name}</translation>
    </message>
    <message>
        <source>has the same name as key {number}, {name}</source>
        <translation>heißt wie Taste {number}, {name}</translation>
    </message>
    <message>
        <source>has the same name as line {number}, {name}</source>
        <translation>heißt wie Leitung {number}, {name}</translation>
    </message>
    <message>
        <source>has the same name as screen {number}, {name}</source>
        <translation>heißt wie Bild {number}, {name}</translation>
    </message>
    <message>
        <source>has the same name as signal {number}, {name}</source>
        <translation>heißt wie Signal {number}, {name}</translation>
    </message>
    <message>
        <source>has {count} characters; at most {most} are allowed</source>
        <translation>hat {count} Zeichen; erlaubt sind höchstens {most}</translation>
    </message>
    <message>
        <source>implausible value: check the register, the data type and the word order</source>
        <translation>unplausibler Wert: Register, Datentyp und Wortreihenfolge prüfen</translation>
    </message>
    <message>
        <source>is empty</source>
        <translation>ist leer</translation>
    </message>
    <message>
        <source>it is written with function 05 or 15, which device &apos;{follower}&apos; does not offer</source>
        <translation>es wird mit Funktion 05 oder 15 geschrieben, die Gerät „{follower}“ nicht anbietet</translation>
    </message>
    <message>
        <source>it is written with function 06 or 16, or 22, which device &apos;{follower}&apos; does not offer</source>
        <translation>es wird mit Funktion 06, 16 oder 22 geschrieben, die Gerät „{follower}“ nicht anbietet</translation>
    </message>
    <message>
        <source>it is written with function 06 or 16, which device &apos;{follower}&apos; does not offer</source>
        <translation>es wird mit Funktion 06 oder 16 geschrieben, die Gerät „{follower}“ nicht anbietet</translation>
    </message>
    <message>
        <source>item</source>
        <translation>Eintrag</translation>
    </message>
    <message>
        <source>key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>key {name} does not exist</source>
        <translation>Taste {name} gibt es nicht</translation>
    </message>
    <message>
        <source>language {language} does not exist</source>
        <translation>Sprache {language} gibt es nicht</translation>
    </message>
    <message>
        <source>line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>line {line} contains a character that is not UTF-8</source>
        <translation>Zeile {line} enthält ein Zeichen, das kein UTF-8 ist</translation>
    </message>
    <message>
        <source>line {line}, column {column}</source>
        <translation>Zeile {line}, Spalte {column}</translation>
    </message>
    <message>
        <source>line {name} does not exist</source>
        <translation>Leitung {name} gibt es nicht</translation>
    </message>
    <message>
        <source>line {number}</source>
        <translation>Leitung {number}</translation>
    </message>
    <message>
        <source>mechanical power</source>
        <translation>mechanische Leistung</translation>
    </message>
    <message>
        <source>messages</source>
        <translation>Meldungen</translation>
    </message>
    <message>
        <source>motor thermal load</source>
        <translation>thermische Motorbelastung</translation>
    </message>
    <message>
        <source>must be a finite number</source>
        <translation>nötig ist eine endliche Zahl</translation>
    </message>
    <message>
        <source>must be a number above {bound}, not {value}</source>
        <translation>nötig ist eine Zahl über {bound}, nicht {value}</translation>
    </message>
    <message>
        <source>must be a whole number, not {kind_of}</source>
        <translation>nötig ist eine ganze Zahl, nicht {kind_of}</translation>
    </message>
    <message>
        <source>must be at least {bound}, not {value}</source>
        <translation>nötig ist mindestens {bound}, nicht {value}</translation>
    </message>
    <message>
        <source>must be at most {bound}, not {value}</source>
        <translation>nötig ist höchstens {bound}, nicht {value}</translation>
    </message>
    <message>
        <source>must be {what}, not {given}</source>
        <translation>nötig ist {what}, nicht {given}</translation>
    </message>
    <message>
        <source>needs 2 numbers, not {count}</source>
        <translation>nötig sind 2 Zahlen, nicht {count}</translation>
    </message>
    <message>
        <source>needs a list of tables</source>
        <translation>nötig ist eine Liste von Tabellen</translation>
    </message>
    <message>
        <source>no permission to read this file</source>
        <translation>keine Berechtigung, diese Datei zu lesen</translation>
    </message>
    <message>
        <source>no permission to write there; save in another folder</source>
        <translation>keine Berechtigung, dort zu schreiben; in einem anderen Ordner speichern</translation>
    </message>
    <message>
        <source>nothing</source>
        <translation>nichts</translation>
    </message>
    <message>
        <source>open it with a newer Fanlight</source>
        <translation>mit einem neueren Fanlight öffnen</translation>
    </message>
    <message>
        <source>output frequency</source>
        <translation>Ausgangsfrequenz</translation>
    </message>
    <message>
        <source>outside its limits {span}: check the register, the data type, the word order and the scale</source>
        <translation>außerhalb seiner Grenzen {span}: Register, Datentyp, Wortreihenfolge und Skalierung prüfen</translation>
    </message>
    <message>
        <source>outside the usual range {span}: check the register, the data type, the word order and the scale</source>
        <translation>außerhalb des üblichen Bereichs {span}: Register, Datentyp, Wortreihenfolge und Skalierung prüfen</translation>
    </message>
    <message>
        <source>panel</source>
        <translation>Panel</translation>
    </message>
    <message>
        <source>panel, key {number}</source>
        <translation>Panel, Taste {number}</translation>
    </message>
    <message>
        <source>plain: bit 2 quick stop, 4 run, 5 reverse, 7 fault reset</source>
        <translation>einfach: Bit 2 Schnellhalt, 4 Lauf, 5 Rückwärts, 7 Störung quittieren</translation>
    </message>
    <message>
        <source>possible keys: {keys}</source>
        <translation>mögliche Schlüssel: {keys}</translation>
    </message>
    <message>
        <source>project</source>
        <translation>Projekt</translation>
    </message>
    <message>
        <source>ready to run</source>
        <translation>betriebsbereit</translation>
    </message>
    <message>
        <source>remote (commanded by the bus)</source>
        <translation>Fern (Führung vom Bus)</translation>
    </message>
    <message>
        <source>remove it</source>
        <translation>entfernen</translation>
    </message>
    <message>
        <source>remove them here, or change the order of the languages</source>
        <translation>hier entfernen oder die Reihenfolge der Sprachen ändern</translation>
    </message>
    <message>
        <source>row</source>
        <translation>Zeile</translation>
    </message>
    <message>
        <source>run time</source>
        <translation>Laufzeit</translation>
    </message>
    <message>
        <source>running</source>
        <translation>läuft</translation>
    </message>
    <message>
        <source>save it again as UTF-8</source>
        <translation>als UTF-8 neu speichern</translation>
    </message>
    <message>
        <source>save the file again as UTF-8</source>
        <translation>die Datei als UTF-8 neu speichern</translation>
    </message>
    <message>
        <source>screen</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>screen change</source>
        <translation>Bildwechsel</translation>
    </message>
    <message>
        <source>screen changes use this word; choose another name</source>
        <translation>Bildwechsel benutzen dieses Wort; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>screen {name} cannot be deleted: it is the start screen, and screen changes go to it: {changes}</source>
        <translation>Bild {name} kann nicht gelöscht werden: es ist das Startbild, und Bildwechsel führen dorthin: {changes}</translation>
    </message>
    <message>
        <source>screen {name} does not exist</source>
        <translation>Bild {name} gibt es nicht</translation>
    </message>
    <message>
        <source>screen {number}</source>
        <translation>Bild {number}</translation>
    </message>
    <message>
        <source>shaft speed</source>
        <translation>Wellendrehzahl</translation>
    </message>
    <message>
        <source>signal</source>
        <translation>Signal</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is a held value, not on the line</source>
        <translation>Signal „{name}“ ist ein Panelwert, nicht auf der Leitung</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is in the table &apos;{table}&apos;, which is read-only</source>
        <translation>Signal „{name}“ liegt in der Tabelle „{table}“, die nur lesbar ist</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is not a bit of a register</source>
        <translation>Signal „{name}“ ist kein Bit eines Registers</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; is read-only (&apos;write&apos; is not set)</source>
        <translation>Signal „{name}“ ist nur lesbar („write“ ist nicht gesetzt)</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos; uses this register</source>
        <translation>das Signal „{name}“ verwendet dieses Register</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;: &apos;{base}&apos; is a held value; only registers have bits</source>
        <translation>Signal „{name}“: „{base}“ ist ein Panelwert; nur Register haben Bits</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;: &apos;{base}&apos; is in the table &apos;{table}&apos; and is itself one bit</source>
        <translation>Signal „{name}“: „{base}“ liegt in der Tabelle „{table}“ und ist selbst ein Bit</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;: &apos;{base}&apos; is itself one bit; only registers have bits</source>
        <translation>Signal „{name}“: „{base}“ ist selbst ein Bit; nur Register haben Bits</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;: its {count} registers starting at address {address} (0-based) end beyond {last}</source>
        <translation>Signal „{name}“: seine {count} Register ab Adresse {address} (ab 0 gezählt) enden hinter {last}</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;: there is no device &apos;{follower}&apos;</source>
        <translation>Signal „{name}“: es gibt kein Gerät „{follower}“</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;: there is no signal &apos;{of}&apos; that could contain the bit</source>
        <translation>Signal „{name}“: es gibt kein Signal „{of}“, das das Bit enthalten könnte</translation>
    </message>
    <message>
        <source>signal &apos;{name}&apos;: {why}</source>
        <translation>Signal „{name}“: {why}</translation>
    </message>
    <message>
        <source>signal {name} does not exist</source>
        <translation>Signal {name} gibt es nicht</translation>
    </message>
    <message>
        <source>signal {name} is itself a bit</source>
        <translation>Signal {name} ist selbst ein Bit</translation>
    </message>
    <message>
        <source>signal {name} is not a held value</source>
        <translation>Signal {name} ist kein Panelwert</translation>
    </message>
    <message>
        <source>signal {number}</source>
        <translation>Signal {number}</translation>
    </message>
    <message>
        <source>start a new project, or use the backup next to it</source>
        <translation>ein neues Projekt beginnen oder die Sicherungskopie daneben verwenden</translation>
    </message>
    <message>
        <source>start screen {name} does not exist</source>
        <translation>Startbild {name} gibt es nicht</translation>
    </message>
    <message>
        <source>starts or ends with a space, or contains a control character</source>
        <translation>hat am Anfang oder Ende ein Leerzeichen oder enthält ein Steuerzeichen</translation>
    </message>
    <message>
        <source>state texts</source>
        <translation>Zustandstexte</translation>
    </message>
    <message>
        <source>state texts are for whole numbers, and &apos;otherwise&apos; for all others: { 0 = &quot;stopped&quot;, otherwise = &quot;unknown&quot; }</source>
        <translation>Zustandstexte gelten für ganze Zahlen, „otherwise“ für alle übrigen: { 0 = &quot;stopped&quot;, otherwise = &quot;unknown&quot; }</translation>
    </message>
    <message>
        <source>status word (IEC 61800-7-201)</source>
        <translation>Statuswort (IEC 61800-7-201)</translation>
    </message>
    <message>
        <source>step</source>
        <translation>Schritt</translation>
    </message>
    <message>
        <source>tables or lists are nested too deeply</source>
        <translation>Tabellen oder Listen sind zu tief verschachtelt</translation>
    </message>
    <message>
        <source>text</source>
        <translation>Text</translation>
    </message>
    <message>
        <source>the current format is written &apos;format = {format}&apos;</source>
        <translation>das aktuelle Format wird „format = {format}“ geschrieben</translation>
    </message>
    <message>
        <source>the current format is {format}</source>
        <translation>das aktuelle Format ist {format}</translation>
    </message>
    <message>
        <source>the disk is full; free some space, or save somewhere else</source>
        <translation>der Datenträger ist voll; Platz schaffen oder an einem anderen Ort speichern</translation>
    </message>
    <message>
        <source>the disk is read-only; save in another folder</source>
        <translation>der Datenträger ist nur lesbar; in einem anderen Ordner speichern</translation>
    </message>
    <message>
        <source>the file cannot be read: {reason}</source>
        <translation>die Datei kann nicht gelesen werden: {reason}</translation>
    </message>
    <message>
        <source>the file contains more than {most} values</source>
        <translation>die Datei enthält mehr als {most} Werte</translation>
    </message>
    <message>
        <source>the file has format {shown}, but this program reads formats up to {last}</source>
        <translation>die Datei hat Format {shown}, dieses Programm liest nur Formate bis {last}</translation>
    </message>
    <message>
        <source>the file has more than {most} MB, too large for a project</source>
        <translation>die Datei hat mehr als {most} MB, zu groß für ein Projekt</translation>
    </message>
    <message>
        <source>the file is empty</source>
        <translation>die Datei ist leer</translation>
    </message>
    <message>
        <source>the file is write-protected; save under another name, or remove the protection</source>
        <translation>die Datei ist schreibgeschützt; unter anderem Namen speichern oder den Schutz aufheben</translation>
    </message>
    <message>
        <source>the file would exceed the size limit of this account; save somewhere else</source>
        <translation>die Datei wäre größer, als dieses Benutzerkonto schreiben darf; an einem anderen Ort speichern</translation>
    </message>
    <message>
        <source>the first register {first} is after the last one {last}</source>
        <translation>das erste Register {first} liegt hinter dem letzten {last}</translation>
    </message>
    <message>
        <source>the language &apos;{language}&apos; is listed twice; each needs a unique name</source>
        <translation>die Sprache „{language}“ ist doppelt; jede braucht einen eigenen Namen</translation>
    </message>
    <message>
        <source>the link leads back to itself; choose another name</source>
        <translation>die Verknüpfung führt auf sich selbst; einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>the load torque must be at least its friction torque</source>
        <translation>das Lastmoment muss mindestens das Reibmoment sein</translation>
    </message>
    <message>
        <source>the lower limit {low} is above the upper limit {high}</source>
        <translation>die untere Grenze {low} liegt über der oberen Grenze {high}</translation>
    </message>
    <message>
        <source>the name is too long; choose a shorter one</source>
        <translation>der Name ist zu lang; einen kürzeren wählen</translation>
    </message>
    <message>
        <source>the project</source>
        <translation>das Projekt</translation>
    </message>
    <message>
        <source>the table &apos;{table}&apos; is read-only</source>
        <translation>die Tabelle „{table}“ ist nur lesbar</translation>
    </message>
    <message>
        <source>the text is UTF-16, not UTF-8</source>
        <translation>der Text ist UTF-16, nicht UTF-8</translation>
    </message>
    <message>
        <source>the two raw numbers are equal; a straight line needs two different ones</source>
        <translation>die zwei Rohwerte sind gleich; eine Gerade braucht zwei verschiedene</translation>
    </message>
    <message>
        <source>the two values are equal; a straight line needs two different ones</source>
        <translation>die zwei Werte sind gleich; eine Gerade braucht zwei verschiedene</translation>
    </message>
    <message>
        <source>the value of &apos;{held}&apos; is written to &apos;{signal}&apos;</source>
        <translation>der Wert von „{held}“ wird in „{signal}“ geschrieben</translation>
    </message>
    <message>
        <source>there is no folder {parent}; choose one that exists</source>
        <translation>es gibt keinen Ordner {parent}; einen vorhandenen wählen</translation>
    </message>
    <message>
        <source>there is no format {shown}</source>
        <translation>es gibt kein Format {shown}</translation>
    </message>
    <message>
        <source>there is no signal &apos;{name}&apos;</source>
        <translation>es gibt kein Signal „{name}“</translation>
    </message>
    <message>
        <source>this is a folder</source>
        <translation>dies ist ein Ordner</translation>
    </message>
    <message>
        <source>this is not TOML: {what}</source>
        <translation>dies ist kein TOML: {what}</translation>
    </message>
    <message>
        <source>this is not a regular file</source>
        <translation>dies ist keine normale Datei</translation>
    </message>
    <message>
        <source>this is not a text file</source>
        <translation>dies ist keine Textdatei</translation>
    </message>
    <message>
        <source>too much for a project</source>
        <translation>zu viel für ein Projekt</translation>
    </message>
    <message>
        <source>torque</source>
        <translation>Drehmoment</translation>
    </message>
    <message>
        <source>true or false</source>
        <translation>true oder false</translation>
    </message>
    <message>
        <source>use a signal with &apos;held&apos;, or a number</source>
        <translation>ein Signal mit „held“ oder eine Zahl angeben</translation>
    </message>
    <message>
        <source>use the signal that contains the bits</source>
        <translation>das Signal angeben, das die Bits enthält</translation>
    </message>
    <message>
        <source>value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>warning active</source>
        <translation>Warnung steht an</translation>
    </message>
    <message>
        <source>when</source>
        <translation>Bedingung</translation>
    </message>
    <message>
        <source>when {condition}: {deed}</source>
        <translation>wenn {condition}: {deed}</translation>
    </message>
    <message>
        <source>with that number</source>
        <translation>mit dieser Nummer</translation>
    </message>
    <message>
        <source>write &apos;format = 2&apos; at the top</source>
        <translation>oben „format = 2“ schreiben</translation>
    </message>
    <message>
        <source>write [[{keys}]] instead of [{keys}]</source>
        <translation>[[{keys}]] statt [{keys}] schreiben</translation>
    </message>
    <message>
        <source>write {format}</source>
        <translation>{format} schreiben</translation>
    </message>
    <message>
        <source>write {kinds}</source>
        <translation>{kinds} schreiben</translation>
    </message>
    <message>
        <source>{asked} was not saved, because it could not be opened afterwards: {problems}</source>
        <translation>{asked} wurde nicht gespeichert, weil es sich danach nicht öffnen ließe: {problems}</translation>
    </message>
    <message>
        <source>{asked} was not saved: {save_trouble}</source>
        <translation>{asked} wurde nicht gespeichert: {save_trouble}</translation>
    </message>
    <message>
        <source>{file}: {count} problems</source>
        <translation>{file}: {count} Probleme</translation>
    </message>
    <message>
        <source>{key} is missing</source>
        <translation>{key} fehlt</translation>
    </message>
    <message>
        <source>{key} is not a key of {part}</source>
        <translation>{key} ist kein Schlüssel von {part}</translation>
    </message>
    <message>
        <source>{key} is not a whole number</source>
        <translation>{key} ist keine ganze Zahl</translation>
    </message>
    <message>
        <source>{language} is the first language; its texts belong in {key}</source>
        <translation>{language} ist die erste Sprache; ihre Texte gehören in {key}</translation>
    </message>
    <message>
        <source>{low} to {high}</source>
        <translation>{low} bis {high}</translation>
    </message>
    <message>
        <source>{names} or {last}</source>
        <translation>{names} oder {last}</translation>
    </message>
    <message>
        <source>{name} was not saved: another program has changed the file in the meantime</source>
        <translation>{name} wurde nicht gespeichert: Ein anderes Programm hat die Datei inzwischen geändert</translation>
    </message>
    <message>
        <source>{place} was not written: {save_trouble}</source>
        <translation>{place} wurde nicht geschrieben: {save_trouble}</translation>
    </message>
    <message>
        <source>{reason}; save somewhere else</source>
        <translation>{reason}; an einem anderen Ort speichern</translation>
    </message>
    <message>
        <source>{said} is a number, but signal &apos;{name}&apos; is a text</source>
        <translation>{said} ist eine Zahl, Signal „{name}“ aber ein Text</translation>
    </message>
    <message>
        <source>{said} is above the limit {limit}</source>
        <translation>{said} liegt über der Grenze {limit}</translation>
    </message>
    <message>
        <source>{said} is below the limit {limit}</source>
        <translation>{said} liegt unter der Grenze {limit}</translation>
    </message>
    <message>
        <source>{said} would be raw {raw}; the range of {encoding} is {least} to {greatest}</source>
        <translation>{said} wäre Rohwert {raw}; {encoding} reicht von {least} bis {greatest}</translation>
    </message>
    <message>
        <source>{unit} is not a unit address; use 1 to 247, on Modbus TCP also 255 or 0</source>
        <translation>{unit} ist keine Geräteadresse; möglich sind 1 bis 247, bei Modbus TCP auch 255 oder 0</translation>
    </message>
    <message>
        <source>{value} is not possible for a single bit; use 0 or 1</source>
        <translation>{value} ist bei einem einzelnen Bit nicht möglich; 0 oder 1 verwenden</translation>
    </message>
    <message>
        <source>{value} is written to &apos;{signal}&apos;</source>
        <translation>{value} wird in „{signal}“ geschrieben</translation>
    </message>
</context>
<context>
    <name>record</name>
    <message>
        <source>STOP FAILED: it may still be on. Stop the machine at the machine.</source>
        <translation>STOPP FEHLGESCHLAGEN: eventuell noch eingeschaltet. Maschine vor Ort stillsetzen.</translation>
    </message>
    <message>
        <source>STOP NOT CONFIRMED: it may still be on; {reason}</source>
        <translation>STOPP NICHT BESTÄTIGT: eventuell noch eingeschaltet; {reason}</translation>
    </message>
    <message>
        <source>a block of samples cannot be read: {why}</source>
        <translation>ein Block von Abtastwerten ist nicht lesbar: {why}</translation>
    </message>
    <message>
        <source>a block of samples contains an unknown quality code</source>
        <translation>ein Block von Abtastwerten enthält eine unbekannte Qualität</translation>
    </message>
    <message>
        <source>a block of samples is empty</source>
        <translation>ein Block von Abtastwerten ist leer</translation>
    </message>
    <message>
        <source>a block of {count} samples has {found} bytes instead of {due}</source>
        <translation>ein Block von {count} Abtastwerten hat {found} Byte statt {due}</translation>
    </message>
    <message>
        <source>active, acknowledged</source>
        <translation>aktiv, quittiert</translation>
    </message>
    <message>
        <source>active, not acknowledged</source>
        <translation>aktiv, nicht quittiert</translation>
    </message>
    <message>
        <source>answers are back after {seconds:.1f} s without any: {reason}</source>
        <translation>wieder Antworten nach {seconds:.1f} s ohne Antwort: {reason}</translation>
    </message>
    <message>
        <source>answers are in time again after {seconds:.1f} s: {reason}</source>
        <translation>wieder rechtzeitige Antworten nach {seconds:.1f} s: {reason}</translation>
    </message>
    <message>
        <source>block {number}: {reason}</source>
        <translation>Block {number}: {reason}</translation>
    </message>
    <message>
        <source>fault for {seconds:.1f} s: {reason}</source>
        <translation>Störung für {seconds:.1f} s: {reason}</translation>
    </message>
    <message>
        <source>it answers again</source>
        <translation>es antwortet wieder</translation>
    </message>
    <message>
        <source>no more readings are refused</source>
        <translation>es werden keine Werte mehr abgelehnt</translation>
    </message>
    <message>
        <source>no space for {path}: the disk is full; free some space</source>
        <translation>kein Platz für {path}: der Datenträger ist voll; Platz schaffen</translation>
    </message>
    <message>
        <source>normal</source>
        <translation>normal</translation>
    </message>
    <message>
        <source>not possible in a recording</source>
        <translation>bei einer Aufzeichnung nicht möglich</translation>
    </message>
    <message>
        <source>not read at that time</source>
        <translation>zu dieser Zeit nicht gelesen</translation>
    </message>
    <message>
        <source>now only {count} of {total} readings are refused</source>
        <translation>es werden nur noch {count} von {total} Werten abgelehnt</translation>
    </message>
    <message>
        <source>reading was stopped: it took more steps than a file of this size can need</source>
        <translation>das Lesen wurde abgebrochen: mehr Schritte, als eine Datei dieser Größe brauchen kann</translation>
    </message>
    <message>
        <source>recording continued from {file}</source>
        <translation>Aufzeichnung fortgesetzt aus {file}</translation>
    </message>
    <message>
        <source>recording continues in {file}</source>
        <translation>Aufzeichnung läuft weiter in {file}</translation>
    </message>
    <message>
        <source>recording ended</source>
        <translation>Aufzeichnung beendet</translation>
    </message>
    <message>
        <source>recording started</source>
        <translation>Aufzeichnung gestartet</translation>
    </message>
    <message>
        <source>returned to normal, not acknowledged</source>
        <translation>nicht mehr aktiv, nicht quittiert</translation>
    </message>
    <message>
        <source>rows of table &apos;{table}&apos; contain invalid values</source>
        <translation>Zeilen der Tabelle „{table}“ enthalten ungültige Werte</translation>
    </message>
    <message>
        <source>saved from the values kept since then</source>
        <translation>gespeichert aus den seitdem gehaltenen Werten</translation>
    </message>
    <message>
        <source>short faults within {seconds:.0f} s: {count}, the last one: {reason}</source>
        <translation>kurze Störungen innerhalb von {seconds:.0f} s: {count}, die letzte: {reason}</translation>
    </message>
    <message>
        <source>the change is over within three samples: measure it as a step, or read faster</source>
        <translation>die Änderung dauert nur drei Abtastungen: als Sprung messen oder schneller lesen</translation>
    </message>
    <message>
        <source>the line is connected</source>
        <translation>die Leitung ist verbunden</translation>
    </message>
    <message>
        <source>the machine has been checked</source>
        <translation>die Maschine wurde geprüft</translation>
    </message>
    <message>
        <source>the operator changed {old} to {new}</source>
        <translation>der Bediener änderte {old} in {new}</translation>
    </message>
    <message>
        <source>the panel shows &apos;{screen}&apos;: {cause}</source>
        <translation>das Panel zeigt „{screen}“: {cause}</translation>
    </message>
    <message>
        <source>the project in {path} cannot be read: {reason}</source>
        <translation>das Projekt in {path} ist nicht lesbar: {reason}</translation>
    </message>
    <message>
        <source>the signal changes no more than its ripple; choose a span that contains a ramp</source>
        <translation>das Signal ändert sich nicht stärker, als es schwankt; einen Abschnitt mit einer Rampe wählen</translation>
    </message>
    <message>
        <source>the signal changes no more than its ripple; choose a span that contains a step</source>
        <translation>das Signal ändert sich nicht stärker, als es schwankt; einen Abschnitt mit einem Sprung wählen</translation>
    </message>
    <message>
        <source>the signal does not ramp straight to its final value; measure it as a step</source>
        <translation>das Signal läuft nicht gleichmäßig zum Endwert; als Sprung messen</translation>
    </message>
    <message>
        <source>the signal does not reach its final value; choose a longer span</source>
        <translation>das Signal erreicht seinen Endwert nicht; einen längeren Abschnitt wählen</translation>
    </message>
    <message>
        <source>the signal is still moving at the end; put B where it has come to rest</source>
        <translation>das Signal bewegt sich am Ende noch; B dorthin setzen, wo es zur Ruhe gekommen ist</translation>
    </message>
    <message>
        <source>the stop was confirmed late, {seconds:.1f} s after the request</source>
        <translation>der Stopp wurde verspätet bestätigt, {seconds:.1f} s nach der Anforderung</translation>
    </message>
    <message>
        <source>there are fewer than {count} good samples in this span; choose a longer one</source>
        <translation>in diesem Abschnitt sind weniger als {count} gute Abtastwerte; einen längeren wählen</translation>
    </message>
    <message>
        <source>there is no file {path}</source>
        <translation>Datei {path} nicht gefunden</translation>
    </message>
    <message>
        <source>there is no folder {folder}</source>
        <translation>es gibt keinen Ordner {folder}</translation>
    </message>
    <message>
        <source>this span has {count} samples of &apos;{signal}&apos;, too many at once; choose a shorter one</source>
        <translation>dieser Abschnitt hat {count} Abtastwerte von „{signal}“, zu viele auf einmal; einen kürzeren wählen</translation>
    </message>
    <message>
        <source>writing to the line is disabled</source>
        <translation>Schreiben auf die Leitung gesperrt</translation>
    </message>
    <message>
        <source>writing to the line is enabled</source>
        <translation>Schreiben auf die Leitung freigegeben</translation>
    </message>
    <message>
        <source>{condition}: {state}</source>
        <translation>{condition}: {state}</translation>
    </message>
    <message>
        <source>{count} of {total} readings are refused: {reason}</source>
        <translation>{count} von {total} Werten werden abgelehnt: {reason}</translation>
    </message>
    <message>
        <source>{count} samples were lost</source>
        <translation>{count} Abtastwerte gingen verloren</translation>
    </message>
    <message>
        <source>{file} could not be deleted: {reason}</source>
        <translation>{file} konnte nicht gelöscht werden: {reason}</translation>
    </message>
    <message>
        <source>{name} is still being written, or the program that wrote it crashed: the newest seconds are in {name}-wal in the same folder. Always copy both files.</source>
        <translation>{name} wird noch geschrieben, oder das schreibende Programm ist abgestürzt: Die neuesten Sekunden stehen in {name}-wal im selben Ordner. Immer beide Dateien kopieren.</translation>
    </message>
    <message>
        <source>{name} was not closed properly, or was copied while being written: up to 10 seconds may be missing at the end.</source>
        <translation>{name} wurde nicht ordnungsgemäß beendet oder während der Aufzeichnung kopiert: Am Ende können bis zu 10 Sekunden fehlen.</translation>
    </message>
    <message>
        <source>{old} -&gt; {new}</source>
        <translation>{old} -&gt; {new}</translation>
    </message>
    <message>
        <source>{path} already exists; recordings are not overwritten: choose another name</source>
        <translation>{path} gibt es schon; Aufzeichnungen werden nicht überschrieben: anderen Namen wählen</translation>
    </message>
    <message>
        <source>{path} cannot be opened: {reason}</source>
        <translation>{path} kann nicht geöffnet werden: {reason}</translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}</source>
        <translation>{path} kann nicht geschrieben werden: {reason}</translation>
    </message>
    <message>
        <source>{path} has an unreleased file version ({version})</source>
        <translation>{path} hat eine unbekannte Dateiversion ({version})</translation>
    </message>
    <message>
        <source>{path} is not a Fanlight recording</source>
        <translation>{path} ist keine Aufzeichnung von Fanlight</translation>
    </message>
    <message>
        <source>{path} is not a recording, or its beginning is damaged: {reason}</source>
        <translation>{path} ist keine Aufzeichnung oder am Anfang beschädigt: {reason}</translation>
    </message>
    <message>
        <source>{path} was not opened: it contains something that Fanlight never writes ({what}) and may be malicious; ask the sender for the original file</source>
        <translation>{path} wurde nicht geöffnet: Die Datei enthält etwas, das Fanlight nie schreibt ({what}), und könnte schädlich sein; beim Absender die Originaldatei anfordern</translation>
    </message>
    <message>
        <source>{path} was written by a newer Fanlight (file version {version}); use that version or a later one</source>
        <translation>{path} wurde von einem neueren Fanlight geschrieben (Dateiversion {version}); diese oder eine spätere Version benutzen</translation>
    </message>
    <message>
        <source>{wanted} was not written: {reason}</source>
        <translation>{wanted} wurde nicht geschrieben: {reason}</translation>
    </message>
    <message>
        <source>{wanted} was written</source>
        <translation>{wanted} wurde geschrieben</translation>
    </message>
    <message>
        <source>{wanted} was written, {kept} read back</source>
        <translation>{wanted} wurde geschrieben, {kept} zurückgelesen</translation>
    </message>
</context>
<context>
    <name>recovery</name>
    <message>
        <source>the copy cannot be read: {reason}</source>
        <translation>die Kopie ist nicht lesbar: {reason}</translation>
    </message>
</context>
<context>
    <name>rehearsal</name>
    <message>
        <source>device &apos;{follower}&apos; does not answer</source>
        <translation>Gerät „{follower}“ antwortet nicht</translation>
    </message>
    <message>
        <source>device &apos;{follower}&apos; refuses: {exception}</source>
        <translation>Gerät „{follower}“ lehnt ab: {exception}</translation>
    </message>
</context>
<context>
    <name>signals</name>
    <message>
        <source>a string cannot contain a NUL character</source>
        <translation>ein String kann kein NUL-Zeichen enthalten</translation>
    </message>
    <message>
        <source>a string has no range of numbers</source>
        <translation>ein String hat keinen Zahlenbereich</translation>
    </message>
    <message>
        <source>a string is 1 to 125 registers long, not {length}</source>
        <translation>ein String ist 1 bis 125 Register lang, nicht {length}</translation>
    </message>
    <message>
        <source>a string needs a length in registers (&apos;length&apos;)</source>
        <translation>ein String braucht eine Länge in Registern („length“)</translation>
    </message>
    <message>
        <source>address {address} is not in 0..{last}</source>
        <translation>Adresse {address} liegt nicht in 0..{last}</translation>
    </message>
    <message>
        <source>coil {first}</source>
        <translation>Coil {first}</translation>
    </message>
    <message>
        <source>coils {first} to {last}</source>
        <translation>Coils {first} bis {last}</translation>
    </message>
    <message>
        <source>discrete input {first}</source>
        <translation>Discrete Input {first}</translation>
    </message>
    <message>
        <source>discrete inputs {first} to {last}</source>
        <translation>Discrete Inputs {first} bis {last}</translation>
    </message>
    <message>
        <source>holding register {first}</source>
        <translation>Holding-Register {first}</translation>
    </message>
    <message>
        <source>holding registers {first} to {last}</source>
        <translation>Holding-Register {first} bis {last}</translation>
    </message>
    <message>
        <source>infinity</source>
        <translation>unendlich</translation>
    </message>
    <message>
        <source>input register {first}</source>
        <translation>Input-Register {first}</translation>
    </message>
    <message>
        <source>input registers {first} to {last}</source>
        <translation>Input-Register {first} bis {last}</translation>
    </message>
    <message>
        <source>its registers are {prefix}0001..{prefix}9999 or {prefix}00001..{prefix}65536</source>
        <translation>ihre Register sind {prefix}0001..{prefix}9999 oder {prefix}00001..{prefix}65536</translation>
    </message>
    <message>
        <source>minus infinity</source>
        <translation>minus unendlich</translation>
    </message>
    <message>
        <source>not a number</source>
        <translation>keine Zahl</translation>
    </message>
    <message>
        <source>not read yet</source>
        <translation>noch nicht gelesen</translation>
    </message>
    <message>
        <source>prefixed coils are 1..9999, or up to 65536 if no other table uses these five digits</source>
        <translation>Coils mit Kennziffer sind 1..9999, oder bis 65536, wenn keine andere Tabelle diese fünf Ziffern verwendet</translation>
    </message>
    <message>
        <source>register 0 is not in 1..{last}; if the manual has a register 0, the numbering is &apos;from-0&apos;</source>
        <translation>Register 0 liegt nicht in 1..{last}; hat das Handbuch ein Register 0, ist die Zählweise „from-0“</translation>
    </message>
    <message>
        <source>register {number} does not have the prefix of the table &apos;{table}&apos;; {rule}</source>
        <translation>Register {number} hat nicht die Kennziffer der Tabelle „{table}“; {rule}</translation>
    </message>
    <message>
        <source>register {number} has the prefix of the table &apos;{other}&apos; (number {rest}), but the signal has table &apos;{table}&apos;; {rule}</source>
        <translation>Register {number} hat die Kennziffer der Tabelle „{other}“ (Nummer {rest}), das Signal hat aber Tabelle „{table}“; {rule}</translation>
    </message>
    <message>
        <source>register {number} is not in {first}..{last}</source>
        <translation>Register {number} liegt nicht in {first}..{last}</translation>
    </message>
    <message>
        <source>register {number} is not in {first}..{last}; it looks like number {rest} of the table &apos;{table}&apos;: is the numbering &apos;prefixed&apos;?</source>
        <translation>Register {number} liegt nicht in {first}..{last}; es sieht aus wie Nummer {rest} der Tabelle „{table}“: Ist die Zählweise „prefixed“?</translation>
    </message>
    <message>
        <source>the character {character!r} is not in Latin-1 and cannot be stored in a register</source>
        <translation>das Zeichen {character!r} ist nicht in Latin-1 und passt nicht in ein Register</translation>
    </message>
    <message>
        <source>the number is too large for {encoding}</source>
        <translation>die Zahl ist zu groß für {encoding}</translation>
    </message>
    <message>
        <source>the registers contain {hex}, which has a digit above 9 and is not a {encoding} value</source>
        <translation>die Register enthalten {hex} mit einer Ziffer über 9; das ist kein {encoding}-Wert</translation>
    </message>
    <message>
        <source>the registers contain {name} ({hex}), not a {encoding} value that can be shown</source>
        <translation>die Register enthalten {name} ({hex}), keinen anzeigbaren {encoding}-Wert</translation>
    </message>
    <message>
        <source>the text has {count} characters, but its registers hold only {most}</source>
        <translation>der Text hat {count} Zeichen, in seine Register passen nur {most}</translation>
    </message>
    <message>
        <source>the two ends of a bar are equal</source>
        <translation>die zwei Enden des Balkens sind gleich</translation>
    </message>
    <message>
        <source>the two raw numbers are equal; a straight line needs two different ones</source>
        <translation>die zwei Rohwerte sind gleich; eine Gerade braucht zwei verschiedene</translation>
    </message>
    <message>
        <source>the two values are equal; a straight line needs two different ones</source>
        <translation>die zwei Werte sind gleich; eine Gerade braucht zwei verschiedene</translation>
    </message>
    <message>
        <source>{count} does not fit {encoding}; its range is {least} to {greatest}</source>
        <translation>{count} passt nicht in {encoding}; der Bereich ist {least} bis {greatest}</translation>
    </message>
    <message>
        <source>{encoding} has bits 0 to {last}; there is no bit {number}</source>
        <translation>{encoding} hat die Bits 0 bis {last}; ein Bit {number} gibt es nicht</translation>
    </message>
    <message>
        <source>{encoding} has no single bits; only integers do</source>
        <translation>{encoding} hat keine einzelnen Bits; nur ganze Zahlen haben sie</translation>
    </message>
    <message>
        <source>{encoding} takes {due} registers, not {count}</source>
        <translation>{encoding} belegt {due} Register, nicht {count}</translation>
    </message>
    <message>
        <source>{raw!r} is a text, but {encoding} is a number</source>
        <translation>{raw!r} ist ein Text, {encoding} aber eine Zahl</translation>
    </message>
    <message>
        <source>{raw} does not fit {encoding}</source>
        <translation>{raw} passt nicht in {encoding}</translation>
    </message>
    <message>
        <source>{raw} is a number, but a string contains characters</source>
        <translation>{raw} ist eine Zahl, ein String enthält aber Zeichen</translation>
    </message>
    <message>
        <source>{raw} is not a finite number; {encoding} set points must be finite</source>
        <translation>{raw} ist keine endliche Zahl; Sollwerte in {encoding} müssen endlich sein</translation>
    </message>
    <message>
        <source>{raw} is not a whole number; {encoding} has whole numbers only</source>
        <translation>{raw} ist keine ganze Zahl; {encoding} enthält nur ganze Zahlen</translation>
    </message>
</context>
<context>
    <name>signing</name>
    <message>
        <source>&apos;{name}&apos; cannot stand among signers: a name has no quotation marks, commas, *, ? or !</source>
        <translation>„{name}“ kann nicht in der Liste der Unterzeichner stehen: ein Name hat keine Anführungszeichen, Kommas, *, ? oder !</translation>
    </message>
    <message>
        <source>&apos;{options}&apos; are not options</source>
        <translation>„{options}“ sind keine Optionen</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a time such as 20270301</source>
        <translation>„{text}“ ist keine Zeit wie 20270301</translation>
    </message>
    <message>
        <source>Without a pass phrase, whoever gets hold of the file of this key signs in its owner&apos;s name.</source>
        <translation>Ohne Passphrase unterschreibt jeder, der an die Datei dieses Schlüssels kommt, im Namen des Inhabers.</translation>
    </message>
    <message>
        <source>a name and a key are needed, and options only between them</source>
        <translation>Name und Schlüssel werden gebraucht, Optionen nur dazwischen</translation>
    </message>
    <message>
        <source>a name that is not between two quotation marks, or not alone there</source>
        <translation>der Name steht nicht zwischen zwei Anführungszeichen oder nicht allein dort</translation>
    </message>
    <message>
        <source>an option is missing behind the comma</source>
        <translation>hinter dem Komma fehlt eine Option</translation>
    </message>
    <message>
        <source>and {count} more</source>
        <translation>und {count} weitere</translation>
    </message>
    <message>
        <source>line {number}: {why}</source>
        <translation>Zeile {number}: {why}</translation>
    </message>
    <message>
        <source>the SSH signature is damaged: something is missing, or something too much</source>
        <translation>die SSH-Signatur ist beschädigt: etwas fehlt oder ist zu viel</translation>
    </message>
    <message>
        <source>the SSH signature is of version {version}, not 1</source>
        <translation>die SSH-Signatur hat Version {version}, nicht 1</translation>
    </message>
    <message>
        <source>the file is not as it was signed, or the signature is damaged</source>
        <translation>die Datei ist nicht mehr so, wie sie unterschrieben wurde, oder die Signatur ist beschädigt</translation>
    </message>
    <message>
        <source>the key counted until {time:%Y-%m-%d %H:%M} UTC</source>
        <translation>der Schlüssel galt bis {time:%Y-%m-%d %H:%M} UTC</translation>
    </message>
    <message>
        <source>the key counts from {time:%Y-%m-%d %H:%M} UTC on</source>
        <translation>der Schlüssel gilt ab {time:%Y-%m-%d %H:%M} UTC</translation>
    </message>
    <message>
        <source>the key is not among the signers</source>
        <translation>der Schlüssel ist nicht unter denen der Unterzeichner</translation>
    </message>
    <message>
        <source>the key is not for signatures of this kind ({namespace})</source>
        <translation>der Schlüssel ist nicht für Signaturen dieser Art ({namespace})</translation>
    </message>
    <message>
        <source>the key was not written to {file}: {why}</source>
        <translation>der Schlüssel wurde nicht nach {file} geschrieben: {why}</translation>
    </message>
    <message>
        <source>the signature cannot be verified here: {why}</source>
        <translation>die Signatur lässt sich hier nicht prüfen: {why}</translation>
    </message>
    <message>
        <source>the signature is for another purpose: {purpose}</source>
        <translation>die Signatur ist für einen anderen Zweck: {purpose}</translation>
    </message>
    <message>
        <source>the signature is made in a way that is not known here</source>
        <translation>die Signatur ist auf eine Weise erstellt, die hier nicht bekannt ist</translation>
    </message>
    <message>
        <source>there is no key {file}; &apos;ssh-keygen -t ed25519 -f {file}&apos; makes one</source>
        <translation>es gibt keinen Schlüssel {file}; „ssh-keygen -t ed25519 -f {file}“ legt einen an</translation>
    </message>
    <message>
        <source>this is a key of the kind &apos;{kind}&apos;; only keys of the kind ssh-ed25519 are used here</source>
        <translation>der Schlüssel ist von der Art „{kind}“; hier gelten nur Schlüssel der Art ssh-ed25519</translation>
    </message>
    <message>
        <source>this is not an SSH signature</source>
        <translation>das ist keine SSH-Signatur</translation>
    </message>
    <message>
        <source>this is not the pass phrase of {file}</source>
        <translation>das ist nicht die Passphrase von {file}</translation>
    </message>
    <message>
        <source>this key is damaged: it is not whole as OpenSSH writes it</source>
        <translation>der Schlüssel ist beschädigt: er ist nicht so vollständig, wie OpenSSH ihn schreibt</translation>
    </message>
    <message>
        <source>this pass phrase is too long: it can have {most} bytes</source>
        <translation>die Passphrase ist zu lang: sie kann {most} Byte haben</translation>
    </message>
    <message>
        <source>valid-before is not later than valid-after</source>
        <translation>valid-before liegt nicht nach valid-after</translation>
    </message>
    <message>
        <source>{file} cannot be read: {why}</source>
        <translation>{file} lässt sich nicht lesen: {why}</translation>
    </message>
    <message>
        <source>{file} exists already; a key is never written over</source>
        <translation>{file} gibt es schon; ein Schlüssel wird nie überschrieben</translation>
    </message>
    <message>
        <source>{file} is damaged: the key in it is not whole</source>
        <translation>{file} ist beschädigt: der Schlüssel darin ist nicht vollständig</translation>
    </message>
    <message>
        <source>{file} is locked by a pass phrase</source>
        <translation>{file} ist durch eine Passphrase geschützt</translation>
    </message>
    <message>
        <source>{file} is locked in a way that is not known here; &apos;ssh-keygen -p&apos; locks it anew</source>
        <translation>{file} ist auf eine Weise geschützt, die hier nicht bekannt ist; „ssh-keygen -p“ schützt sie neu</translation>
    </message>
    <message>
        <source>{file} is not a private key</source>
        <translation>{file} ist kein privater Schlüssel</translation>
    </message>
    <message>
        <source>{file} is not a text file</source>
        <translation>{file} ist keine Textdatei</translation>
    </message>
    <message>
        <source>{file} is not a whole key of the kind ssh-ed25519 as OpenSSH writes it</source>
        <translation>{file} ist kein vollständiger Schlüssel der Art ssh-ed25519, wie OpenSSH ihn schreibt</translation>
    </message>
    <message>
        <source>{file} is the public half of a key; to sign, choose the file of its private half</source>
        <translation>{file} ist die öffentliche Hälfte eines Schlüssels; zum Unterschreiben die Datei der privaten Hälfte wählen</translation>
    </message>
    <message>
        <source>{file} is too large for a file of signers</source>
        <translation>{file} ist zu groß für eine Datei von Unterzeichnern</translation>
    </message>
    <message>
        <source>{file} is too large for a key</source>
        <translation>{file} ist zu groß für einen Schlüssel</translation>
    </message>
    <message>
        <source>{file}: {why}</source>
        <translation>{file}: {why}</translation>
    </message>
    <message>
        <source>{file}: {wrong}</source>
        <translation>{file}: {wrong}</translation>
    </message>
    <message>
        <source>{option} stands twice</source>
        <translation>{option} steht zweimal</translation>
    </message>
</context>
<context>
    <name>snapshots</name>
    <message>
        <source>&apos;{text}&apos; is not a range; write it as holding:0-99, with coil, discrete, input or holding first</source>
        <translation>„{text}“ ist kein Bereich; Schreibweise holding:0-99, mit coil, discrete, input oder holding davor</translation>
    </message>
    <message>
        <source>Device &apos;{follower}&apos; does not answer at {where}: {reason}. The snapshot was discarded.</source>
        <translation>Gerät „{follower}“ antwortet bei {where} nicht: {reason}. Das Registerabbild wurde verworfen.</translation>
    </message>
    <message>
        <source>Device &apos;{follower}&apos; refuses all requested registers: {reason}</source>
        <translation>Gerät „{follower}“ lehnt alle angefragten Register ab: {reason}</translation>
    </message>
    <message>
        <source>No signal of device &apos;{follower}&apos; is on the line; enter register ranges to read.</source>
        <translation>Kein Signal von Gerät „{follower}“ liegt auf der Leitung; zu lesende Registerbereiche angeben.</translation>
    </message>
    <message>
        <source>a coil: it may be a command</source>
        <translation>ein Coil: kann ein Befehl sein</translation>
    </message>
    <message>
        <source>a measured value: &apos;write&apos; is not set</source>
        <translation>ein Messwert: „write“ ist nicht gesetzt</translation>
    </message>
    <message>
        <source>an action of the panel writes it</source>
        <translation>eine Aktion des Panels schreibt es</translation>
    </message>
    <message>
        <source>an output that is refreshed cyclically</source>
        <translation>ein zyklisch geschriebener Ausgang</translation>
    </message>
    <message>
        <source>equal</source>
        <translation>gleich</translation>
    </message>
    <message>
        <source>it already has this value</source>
        <translation>hat diesen Wert schon</translation>
    </message>
    <message>
        <source>it contains command bits</source>
        <translation>es enthält Befehlsbits</translation>
    </message>
    <message>
        <source>it starts or stops a drive</source>
        <translation>es startet oder stoppt einen Antrieb</translation>
    </message>
    <message>
        <source>its format is {found}, but this program reads {known}</source>
        <translation>das Format ist {found}, dieses Programm liest nur {known}</translation>
    </message>
    <message>
        <source>no signal uses it: check the manual first</source>
        <translation>kein Signal verwendet es: zuerst im Handbuch nachsehen</translation>
    </message>
    <message>
        <source>not in the snapshot</source>
        <translation>nicht im Registerabbild</translation>
    </message>
    <message>
        <source>not written: the value has changed since the comparison; compare again</source>
        <translation>nicht geschrieben: der Wert hat sich seit dem Vergleich geändert; neu vergleichen</translation>
    </message>
    <message>
        <source>not written: {why}</source>
        <translation>nicht geschrieben: {why}</translation>
    </message>
    <message>
        <source>part of signal &apos;{name}&apos;, which is only written as a whole</source>
        <translation>Teil des Signals „{name}“, das nur als Ganzes geschrieben wird</translation>
    </message>
    <message>
        <source>the device does not return it now</source>
        <translation>das Gerät liefert es jetzt nicht</translation>
    </message>
    <message>
        <source>the first register {first} is after the last one {last}</source>
        <translation>das erste Register {first} liegt hinter dem letzten {last}</translation>
    </message>
    <message>
        <source>the key {key} is missing or wrong</source>
        <translation>der Schlüssel {key} fehlt oder ist falsch</translation>
    </message>
    <message>
        <source>the project no longer has this signal, or it is at another register</source>
        <translation>das Projekt hat dieses Signal nicht mehr oder bei einem anderen Register</translation>
    </message>
    <message>
        <source>the table &apos;{table}&apos; is read-only</source>
        <translation>die Tabelle „{table}“ ist nur lesbar</translation>
    </message>
    <message>
        <source>this is not TOML: {reason}</source>
        <translation>das ist kein TOML: {reason}</translation>
    </message>
    <message>
        <source>this is not a register snapshot</source>
        <translation>das ist kein Registerabbild</translation>
    </message>
    <message>
        <source>written and read back</source>
        <translation>geschrieben und zurückgelesen</translation>
    </message>
    <message>
        <source>{path} cannot be read: {reason}</source>
        <translation>{path} kann nicht gelesen werden: {reason}</translation>
    </message>
    <message>
        <source>{path} cannot be written: {reason}</source>
        <translation>{path} kann nicht geschrieben werden: {reason}</translation>
    </message>
    <message>
        <source>{path} has more than {most} MB, too large for a snapshot</source>
        <translation>{path} hat mehr als {most} MB, zu groß für ein Registerabbild</translation>
    </message>
    <message>
        <source>{path} is not a regular file</source>
        <translation>{path} ist keine normale Datei</translation>
    </message>
    <message>
        <source>{path} is not a text file, so not a snapshot</source>
        <translation>{path} ist keine Textdatei und kein Registerabbild</translation>
    </message>
    <message>
        <source>{where}, &apos;{signal}&apos;</source>
        <translation>{where}, „{signal}“</translation>
    </message>
</context>
<context>
    <name>starters</name>
    <message>
        <source>A register list to import</source>
        <translation>Eine Registerliste zum Importieren</translation>
    </message>
    <message>
        <source>A serial port of this computer</source>
        <translation>Eine serielle Schnittstelle dieses Rechners</translation>
    </message>
    <message>
        <source>Arrows and F1, F2, F3</source>
        <translation>Pfeile und F1, F2, F3</translation>
    </message>
    <message>
        <source>Arrows and START, STOP, RESET</source>
        <translation>Pfeile und START, STOP, RESET</translation>
    </message>
    <message>
        <source>Choose the serial port that the device is connected to.</source>
        <translation>Die serielle Schnittstelle wählen, an der das Gerät angeschlossen ist.</translation>
    </message>
    <message>
        <source>Control word of IEC 61800-7-201</source>
        <translation>Steuerwort nach IEC 61800-7-201</translation>
    </message>
    <message>
        <source>Control word of IEC 61800-7-201: 6 is shutdown (the motor runs out, ready for a start), 15 is enable operation. After power-up and after a fault the drive wants a 6 before it takes a 15: STOP sends it.</source>
        <translation>Steuerwort nach IEC 61800-7-201: 6 ist Stillsetzen (der Motor läuft aus, bereit zum Start), 15 ist Betrieb freigeben. Nach dem Einschalten und nach einer Störung verlangt der Antrieb eine 6, bevor er eine 15 annimmt: STOP sendet sie.</translation>
    </message>
    <message>
        <source>Empty panel</source>
        <translation>Leeres Panel</translation>
    </message>
    <message>
        <source>Enter the name or IP address that is set at the device, e.g. 192.0.2.20 or drive-3:502.</source>
        <translation>Den am Gerät eingestellten Namen oder die IP-Adresse eingeben, z. B. 192.0.2.20 oder antrieb-3:502.</translation>
    </message>
    <message>
        <source>Heating on and off, set point, temperature and output, and an alarm screen.</source>
        <translation>Heizung ein und aus, Sollwert, Temperatur und Stellgröße sowie ein Alarmbild.</translation>
    </message>
    <message>
        <source>Network (Modbus TCP)</source>
        <translation>Netzwerk (Modbus TCP)</translation>
    </message>
    <message>
        <source>One drive</source>
        <translation>Ein Antrieb</translation>
    </message>
    <message>
        <source>One empty screen, a line and a device.</source>
        <translation>Ein leeres Bild, eine Leitung und ein Gerät.</translation>
    </message>
    <message>
        <source>Plain: run, reverse, fault reset</source>
        <translation>Einfach: Lauf, rückwärts, quittieren</translation>
    </message>
    <message>
        <source>Simulated: no device is needed yet</source>
        <translation>Simuliert: noch kein Gerät nötig</translation>
    </message>
    <message>
        <source>Start, stop, set point, direction, speed and current of one drive, and a fault screen.</source>
        <translation>Start, Stopp, Sollwert, Richtung, Drehzahl und Strom eines Antriebs sowie ein Störbild.</translation>
    </message>
    <message>
        <source>Status word of IEC 61800-7-201: bit 2 operation enabled, 3 fault, 9 remote.</source>
        <translation>Statuswort nach IEC 61800-7-201: Bit 2 Betrieb freigegeben, 3 Störung, 9 Fern.</translation>
    </message>
    <message>
        <source>Temperature controller</source>
        <translation>Temperaturregler</translation>
    </message>
    <message>
        <source>These screens need at least {rows} rows of {columns} cells.</source>
        <translation>Diese Bilder brauchen mindestens {rows} Zeilen mit {columns} Zellen.</translation>
    </message>
    <message>
        <source>Two drives on one line: each started on its own screen, both stopped by one key.</source>
        <translation>Zwei Antriebe an einer Leitung: jeder auf seinem eigenen Bild gestartet, beide mit einer Taste gestoppt.</translation>
    </message>
    <message>
        <source>Two pumps</source>
        <translation>Zwei Pumpen</translation>
    </message>
    <message>
        <source>Unit addresses go from 1 to {last}.</source>
        <translation>Geräteadressen gehen von 1 bis {last}.</translation>
    </message>
    <message>
        <source>device</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>drive</source>
        <translation>Antrieb</translation>
    </message>
    <message>
        <source>en</source>
        <translation>de</translation>
    </message>
    <message>
        <source>line</source>
        <translation>Leitung</translation>
    </message>
    <message>
        <source>main</source>
        <translation>Haupt</translation>
    </message>
    <message>
        <source>screen {number}</source>
        <translation>Bild {number}</translation>
    </message>
</context>
<context>
    <name>steps</name>
    <message>
        <source>Add a device</source>
        <translation>Gerät anlegen</translation>
    </message>
    <message>
        <source>Add a line</source>
        <translation>Leitung anlegen</translation>
    </message>
    <message>
        <source>Connect</source>
        <translation>Verbinden</translation>
    </message>
    <message>
        <source>Let keys change the screen</source>
        <translation>Tasten zum Bildwechsel</translation>
    </message>
    <message>
        <source>Name its signals</source>
        <translation>Signale benennen</translation>
    </message>
    <message>
        <source>Place them on a screen</source>
        <translation>Auf ein Bild setzen</translation>
    </message>
    <message>
        <source>Try it (F9)</source>
        <translation>Ausprobieren (F9)</translation>
    </message>
</context>
<context>
    <name>trial</name>
    <message>
        <source> and </source>
        <translation> und </translation>
    </message>
    <message>
        <source> of &apos;{about}&apos;</source>
        <translation> von „{about}“</translation>
    </message>
    <message>
        <source>&apos;about&apos; needs an &apos;event&apos;</source>
        <translation>„about“ braucht ein „event“</translation>
    </message>
    <message>
        <source>&apos;alarm&apos; and &apos;state&apos; belong together</source>
        <translation>„alarm“ und „state“ gehören zusammen</translation>
    </message>
    <message>
        <source>&apos;format&apos; is missing</source>
        <translation>„format“ fehlt</translation>
    </message>
    <message>
        <source>&apos;text&apos;, &apos;like&apos; and &apos;cells&apos; need the &apos;row&apos; that they are about</source>
        <translation>„text“, „like“ und „cells“ brauchen die Zeile („row“), um die es geht</translation>
    </message>
    <message>
        <source>&apos;tolerance&apos; needs a &apos;value&apos;</source>
        <translation>„tolerance“ braucht einen Wert („value“)</translation>
    </message>
    <message>
        <source>&apos;{key}&apos; is missing</source>
        <translation>„{key}“ fehlt</translation>
    </message>
    <message>
        <source>&apos;{screen}&apos; ends: {condition} no more</source>
        <translation>„{screen}“ endet: {condition} gilt nicht mehr</translation>
    </message>
    <message>
        <source>&apos;{screen}&apos;: {condition}</source>
        <translation>„{screen}“: {condition}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos;</source>
        <translation>„{signal}“</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is &apos;{text}&apos;</source>
        <translation>„{signal}“ ist „{text}“</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is not confirmed to be written</source>
        <translation>„{signal}“: Schreiben ist nicht bestätigt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is {before} again</source>
        <translation>„{signal}“ ist wieder {before}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is {bounds}</source>
        <translation>„{signal}“ ist {bounds}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is {value}</source>
        <translation>„{signal}“ ist {value}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; is {value}, give or take {tolerance}</source>
        <translation>„{signal}“ ist {value}, ± {tolerance}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; reads {quality}</source>
        <translation>„{signal}“ hat die Güte {quality}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; was not read again</source>
        <translation>„{signal}“ wurde nicht neu gelesen</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; was not written: {reason}</source>
        <translation>„{signal}“ wurde nicht geschrieben: {reason}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; was written, but its value before was not known</source>
        <translation>„{signal}“ wurde geschrieben, aber der Wert davor war nicht bekannt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; was {before} before and could not be put back: {why}</source>
        <translation>„{signal}“ war vorher {before} und ließ sich nicht zurückstellen: {why}</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; was {before} before; it is not set by itself</source>
        <translation>„{signal}“ war vorher {before}; es wird nicht von selbst gesetzt</translation>
    </message>
    <message>
        <source>&apos;{signal}&apos; while it is held</source>
        <translation>„{signal}“, solange sie gehalten wird</translation>
    </message>
    <message>
        <source>&apos;{source}&apos; to &apos;{target}&apos; by {cause}</source>
        <translation>„{source}“ nach „{target}“ durch {cause}</translation>
    </message>
    <message>
        <source>&apos;{subject}&apos;</source>
        <translation>„{subject}“</translation>
    </message>
    <message>
        <source>&apos;{text}&apos;</source>
        <translation>„{text}“</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; of &apos;{signal}&apos; on &apos;{screen}&apos;</source>
        <translation>„{text}“ von „{signal}“ auf „{screen}“</translation>
    </message>
    <message>
        <source>&apos;{text}&apos;, cell by cell</source>
        <translation>„{text}“, Zelle für Zelle</translation>
    </message>
    <message>
        <source>, for {seconds} s</source>
        <translation>, {seconds} s lang</translation>
    </message>
    <message>
        <source>, held for {seconds} s</source>
        <translation>, {seconds} s gehalten</translation>
    </message>
    <message>
        <source>, within {seconds} s</source>
        <translation>, innerhalb von {seconds} s</translation>
    </message>
    <message>
        <source>A limit of &apos;{signal}&apos; is not entered on a field of {width} cells: it has no room.</source>
        <translation>Eine Grenze von „{signal}“ wird auf einem Feld von {width} Stellen nicht eingegeben: Sie hat keinen Platz.</translation>
    </message>
    <message>
        <source>A signature is worth what you know of the key: compare its fingerprint with the one that its owner gave you by another way.</source>
        <translation>Eine Signatur ist so viel wert, wie über den Schlüssel bekannt ist: den Fingerabdruck mit dem vergleichen, den sein Besitzer auf anderem Weg mitgeteilt hat.</translation>
    </message>
    <message>
        <source>Action {number} (key {key}) is not tried: its screen or key is not there.</source>
        <translation>Aktion {number} (Taste {key}) wird nicht geprüft: Ihr Bild oder ihre Taste gibt es nicht.</translation>
    </message>
    <message>
        <source>Action {number} (key {key}: {deed}) is not tried: its value is not known before.</source>
        <translation>Aktion {number} (Taste {key}: {deed}) wird nicht geprüft: Ihr Wert ist vorher nicht bekannt.</translation>
    </message>
    <message>
        <source>Action {number} is not tried: nobody can bring it about that {condition}.</source>
        <translation>Aktion {number} wird nicht geprüft: Niemand kann herbeiführen, dass gilt: {condition}.</translation>
    </message>
    <message>
        <source>An earlier run ended in &apos;{case}&apos; before that was cleaned up.</source>
        <translation>Ein früherer Lauf endete in „{case}“, bevor aufgeräumt war.</translation>
    </message>
    <message>
        <source>Device &apos;{device}&apos; is lost and comes back</source>
        <translation>Gerät „{device}“ fällt aus und kommt wieder</translation>
    </message>
    <message>
        <source>Device &apos;{device}&apos; is not tried running: no key starts it.</source>
        <translation>Gerät „{device}“ wird nicht im Lauf geprüft: Keine Taste startet es.</translation>
    </message>
    <message>
        <source>Device &apos;{device}&apos;: {what}</source>
        <translation>Gerät „{device}“: {what}</translation>
    </message>
    <message>
        <source>Entry of &apos;{signal}&apos; on &apos;{screen}&apos;</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“</translation>
    </message>
    <message>
        <source>Findings of the design checks that are open:</source>
        <translation>Offene Befunde der Prüfung des Entwurfs:</translation>
    </message>
    <message>
        <source>Idle for {seconds} s on &apos;{screen}&apos; leads to &apos;{to}&apos;</source>
        <translation>{seconds} s ohne Bedienung auf „{screen}“ führen zu „{to}“</translation>
    </message>
    <message>
        <source>It is not tried whether override &apos;{screen}&apos; ends.</source>
        <translation>Ob das Vorrangbild „{screen}“ endet, wird nicht geprüft.</translation>
    </message>
    <message>
        <source>It starts and stops {count} times, one right after the other.</source>
        <translation>Es wird {count} Mal gestartet und angehalten, einmal gleich nach dem anderen.</translation>
    </message>
    <message>
        <source>Key {key} stops &apos;{signal}&apos; on &apos;{screen}&apos;</source>
        <translation>Taste {key} hält „{signal}“ auf „{screen}“ an</translation>
    </message>
    <message>
        <source>Key {key} stops &apos;{signal}&apos; on every screen</source>
        <translation>Taste {key} hält „{signal}“ auf jedem Bild an</translation>
    </message>
    <message>
        <source>Key {key} while &apos;{device}&apos; is lost: it is stopped as soon as it is back</source>
        <translation>Taste {key} bei Ausfall von „{device}“: Es wird angehalten, sobald es wieder da ist</translation>
    </message>
    <message>
        <source>Key {key}: the next language, round to the first</source>
        <translation>Taste {key}: nächste Sprache, reihum bis zur ersten</translation>
    </message>
    <message>
        <source>Key {key}: {deed}</source>
        <translation>Taste {key}: {deed}</translation>
    </message>
    <message>
        <source>Keys of screen &apos;{screen}&apos;</source>
        <translation>Tasten von Bild „{screen}“</translation>
    </message>
    <message>
        <source>NOT SIGNED: anybody may have changed it</source>
        <translation>NICHT UNTERSCHRIEBEN: jeder kann es geändert haben</translation>
    </message>
    <message>
        <source>Not tried:</source>
        <translation>Nicht geprüft:</translation>
    </message>
    <message>
        <source>Numbers on &apos;{screen}&apos;</source>
        <translation>Zahlen auf „{screen}“</translation>
    </message>
    <message>
        <source>Override &apos;{screen}&apos; is not tried: &apos;{other}&apos; is shown before it.</source>
        <translation>Vorrangbild „{screen}“ wird nicht geprüft: „{other}“ geht ihm vor.</translation>
    </message>
    <message>
        <source>Override &apos;{screen}&apos; is not tried: nobody can bring it about that {condition}.</source>
        <translation>Vorrangbild „{screen}“ wird nicht geprüft: Niemand kann herbeiführen, dass gilt: {condition}.</translation>
    </message>
    <message>
        <source>Override &apos;{screen}&apos;: {condition}</source>
        <translation>Vorrangbild „{screen}“: {condition}</translation>
    </message>
    <message>
        <source>Press shorter sequences at the device too, at most {tries} of at most {keys} keys each, to find the shortest that shows the difference? The same limits hold.</source>
        <translation>Auch am Gerät kürzere Folgen drücken, höchstens {tries} mit je höchstens {keys} Tasten, um die kürzeste zu finden, die den Unterschied zeigt? Es gelten dieselben Grenzen.</translation>
    </message>
    <message>
        <source>Proposed from the project: whatever it says is tried, whether or not it is right.</source>
        <translation>Aus dem Projekt vorgeschlagen: Geprüft wird, was es sagt, ob es richtig ist oder nicht.</translation>
    </message>
    <message>
        <source>Screen &apos;{screen}&apos;</source>
        <translation>Bild „{screen}“</translation>
    </message>
    <message>
        <source>Screen &apos;{screen}&apos; is never shown: nothing leads to it.</source>
        <translation>Bild „{screen}“ wird nie gezeigt: Nichts führt dorthin.</translation>
    </message>
    <message>
        <source>Screen &apos;{screen}&apos; is not shown: nobody can make its condition hold.</source>
        <translation>Bild „{screen}“ wird nicht gezeigt: Niemand kann seine Bedingung herbeiführen.</translation>
    </message>
    <message>
        <source>Screen change {number} (idle) never comes about.</source>
        <translation>Bildwechsel {number} (ohne Bedienung) kommt nie zustande.</translation>
    </message>
    <message>
        <source>Signals that no screen shows as numbers</source>
        <translation>Signale, die kein Bild als Zahl zeigt</translation>
    </message>
    <message>
        <source>Text &apos;{text}&apos; of &apos;{signal}&apos;</source>
        <translation>Text „{text}“ von „{signal}“</translation>
    </message>
    <message>
        <source>Text &apos;{text}&apos; of &apos;{signal}&apos; on &apos;{screen}&apos;</source>
        <translation>Text „{text}“ von „{signal}“ auf „{screen}“</translation>
    </message>
    <message>
        <source>Text &apos;{text}&apos; of &apos;{signal}&apos; on &apos;{screen}&apos; is not tried: {why}.</source>
        <translation>Text „{text}“ von „{signal}“ auf „{screen}“ wird nicht geprüft: {why}.</translation>
    </message>
    <message>
        <source>Texts of &apos;{signal}&apos; on &apos;{screen}&apos;: {value}</source>
        <translation>Texte von „{signal}“ auf „{screen}“: {value}</translation>
    </message>
    <message>
        <source>The entry of &apos;{signal}&apos; on &apos;{screen}&apos; is not tried: it has no limits.</source>
        <translation>Die Eingabe von „{signal}“ auf „{screen}“ wird nicht geprüft: Sie hat keine Grenzen.</translation>
    </message>
    <message>
        <source>The entry of &apos;{signal}&apos; on &apos;{screen}&apos; is not tried: {why}.</source>
        <translation>Die Eingabe von „{signal}“ auf „{screen}“ wird nicht geprüft: {why}.</translation>
    </message>
    <message>
        <source>The limits of &apos;{signal}&apos; are not entered: they are too many steps apart.</source>
        <translation>Die Grenzen von „{signal}“ werden nicht eingegeben: Sie liegen zu viele Schritte auseinander.</translation>
    </message>
    <message>
        <source>This case can move the machine. Is everybody clear of it?</source>
        <translation>Dieser Fall kann die Maschine bewegen. Sind alle aus dem Bereich?</translation>
    </message>
    <message>
        <source>This is for the command prompt (cmd); PowerShell has no &apos;&lt;&apos;.</source>
        <translation>Für die Eingabeaufforderung (cmd); PowerShell kennt kein „&lt;“.</translation>
    </message>
    <message>
        <source>Trial of &apos;{title}&apos;</source>
        <translation>Abnahmelauf zu „{title}“</translation>
    </message>
    <message>
        <source>Values that the panel holds, when it wakes up</source>
        <translation>Werte im Bedienfeld, wenn es erwacht</translation>
    </message>
    <message>
        <source>When {condition}: {deed}</source>
        <translation>Wenn {condition}: {deed}</translation>
    </message>
    <message>
        <source>Whether cells blink is not tried: a person has to look.</source>
        <translation>Ob Zellen blinken, wird nicht geprüft: Das muss jemand ansehen.</translation>
    </message>
    <message>
        <source>Without this program: {command}</source>
        <translation>Ohne dieses Programm: {command}</translation>
    </message>
    <message>
        <source>a number in it has too many digits</source>
        <translation>eine Zahl darin hat zu viele Ziffern</translation>
    </message>
    <message>
        <source>a row needs one of &apos;text&apos;, &apos;like&apos; and &apos;cells&apos;</source>
        <translation>eine Zeile braucht eines von „text“, „like“ und „cells“</translation>
    </message>
    <message>
        <source>a row of &apos;each&apos; does not fit: {why}</source>
        <translation>eine Zeile von „each“ passt nicht: {why}</translation>
    </message>
    <message>
        <source>a run that was not ended is kept in {file}; look at it, then delete it</source>
        <translation>in {file} steht ein Lauf, der nicht zu Ende kam; ansehen und dann löschen</translation>
    </message>
    <message>
        <source>a signal needs one of &apos;value&apos;, &apos;above&apos; and &apos;below&apos;, &apos;text&apos;, and &apos;quality&apos;</source>
        <translation>ein Signal braucht eines von „value“, „above“ und „below“, „text“ und „quality“</translation>
    </message>
    <message>
        <source>a step needs one of {kinds}</source>
        <translation>ein Schritt braucht eines von {kinds}</translation>
    </message>
    <message>
        <source>a value or a quality needs the &apos;signal&apos; that it is of</source>
        <translation>ein Wert oder eine Güte braucht das Signal („signal“) dazu</translation>
    </message>
    <message>
        <source>above {value}</source>
        <translation>über {value}</translation>
    </message>
    <message>
        <source>action {number}: {cause}, {deed} {signal}</source>
        <translation>Aktion {number}: {cause}, {deed} {signal}</translation>
    </message>
    <message>
        <source>alarm &apos;{alarm}&apos;</source>
        <translation>Alarm „{alarm}“</translation>
    </message>
    <message>
        <source>alarm &apos;{alarm}&apos; is {state}</source>
        <translation>Alarm „{alarm}“ ist {state}</translation>
    </message>
    <message>
        <source>all</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>an answer needs one of {kinds}</source>
        <translation>eine Antwort braucht eines von {kinds}</translation>
    </message>
    <message>
        <source>an event</source>
        <translation>ein Ereignis</translation>
    </message>
    <message>
        <source>an event of &apos;{about}&apos;</source>
        <translation>ein Ereignis von „{about}“</translation>
    </message>
    <message>
        <source>an exception needs a name and a reason</source>
        <translation>eine Ausnahme braucht einen Namen und einen Grund</translation>
    </message>
    <message>
        <source>an override covers it</source>
        <translation>Ein Vorrangbild verdeckt es</translation>
    </message>
    <message>
        <source>and {count} more</source>
        <translation>und {count} weitere</translation>
    </message>
    <message>
        <source>any screen</source>
        <translation>jedem Bild</translation>
    </message>
    <message>
        <source>any value</source>
        <translation>beliebiger Wert</translation>
    </message>
    <message>
        <source>any value, {unit}</source>
        <translation>beliebiger Wert, {unit}</translation>
    </message>
    <message>
        <source>ask: {question}</source>
        <translation>Frage: {question}</translation>
    </message>
    <message>
        <source>at least {low} {unit}</source>
        <translation>mindestens {low} {unit}</translation>
    </message>
    <message>
        <source>at most {high} {unit}</source>
        <translation>höchstens {high} {unit}</translation>
    </message>
    <message>
        <source>begin the entry of &apos;{signal}&apos;</source>
        <translation>Eingabe von „{signal}“ beginnen</translation>
    </message>
    <message>
        <source>below {value}</source>
        <translation>unter {value}</translation>
    </message>
    <message>
        <source>by hand: {what}</source>
        <translation>von Hand: {what}</translation>
    </message>
    <message>
        <source>cleaning up after &apos;{case}&apos;</source>
        <translation>aufräumen nach „{case}“</translation>
    </message>
    <message>
        <source>clear &apos;{signal}&apos;</source>
        <translation>„{signal}“ löschen</translation>
    </message>
    <message>
        <source>enter {value} for &apos;{signal}&apos;</source>
        <translation>{value} für „{signal}“ eingeben</translation>
    </message>
    <message>
        <source>entry of &apos;{signal}&apos; on &apos;{screen}&apos;: a value between</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“: ein Wert dazwischen</translation>
    </message>
    <message>
        <source>entry of &apos;{signal}&apos; on &apos;{screen}&apos;: abandoned</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“: abgebrochen</translation>
    </message>
    <message>
        <source>entry of &apos;{signal}&apos; on &apos;{screen}&apos;: above the upper limit</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“: über der oberen Grenze</translation>
    </message>
    <message>
        <source>entry of &apos;{signal}&apos; on &apos;{screen}&apos;: below the lower limit</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“: unter der unteren Grenze</translation>
    </message>
    <message>
        <source>entry of &apos;{signal}&apos; on &apos;{screen}&apos;: lower limit</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“: untere Grenze</translation>
    </message>
    <message>
        <source>entry of &apos;{signal}&apos; on &apos;{screen}&apos;: upper limit</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“: obere Grenze</translation>
    </message>
    <message>
        <source>entry of &apos;{signal}&apos; on &apos;{screen}&apos;: {choice}</source>
        <translation>Eingabe von „{signal}“ auf „{screen}“: {choice}</translation>
    </message>
    <message>
        <source>event &apos;{event}&apos;</source>
        <translation>Ereignis „{event}“</translation>
    </message>
    <message>
        <source>expect: {what}</source>
        <translation>erwartet: {what}</translation>
    </message>
    <message>
        <source>expects one thing: a screen or a row of it, a signal, an event or an alarm</source>
        <translation>erwartet wird eines: ein Bild oder eine Zeile davon, ein Signal, ein Ereignis oder ein Alarm</translation>
    </message>
    <message>
        <source>is not a date</source>
        <translation>ist kein Datum</translation>
    </message>
    <message>
        <source>it is nested too deeply</source>
        <translation>es ist zu tief verschachtelt</translation>
    </message>
    <message>
        <source>it is not UTF-8</source>
        <translation>es ist nicht UTF-8</translation>
    </message>
    <message>
        <source>it is of format {number}; this program knows {format} at most</source>
        <translation>die Datei hat das Format {number}; dieses Programm kennt höchstens {format}</translation>
    </message>
    <message>
        <source>it was not accepted</source>
        <translation>es wurde nicht übernommen</translation>
    </message>
    <message>
        <source>it was not read again</source>
        <translation>es wurde nicht neu gelesen</translation>
    </message>
    <message>
        <source>its rows need names of their own: put a value such as {hole} into the name</source>
        <translation>jede Zeile braucht einen eigenen Namen: einen Wert wie {hole} in den Namen setzen</translation>
    </message>
    <message>
        <source>keys at random</source>
        <translation>zufällige Tasten</translation>
    </message>
    <message>
        <source>keys: {keys}</source>
        <translation>Tasten: {keys}</translation>
    </message>
    <message>
        <source>like &apos;{text}&apos;</source>
        <translation>wie „{text}“</translation>
    </message>
    <message>
        <source>line {line}: it is not JSON ({what})</source>
        <translation>Zeile {line}: kein JSON ({what})</translation>
    </message>
    <message>
        <source>look at {what}</source>
        <translation>ansehen: {what}</translation>
    </message>
    <message>
        <source>measure: {what}</source>
        <translation>messen: {what}</translation>
    </message>
    <message>
        <source>message</source>
        <translation>Meldung</translation>
    </message>
    <message>
        <source>needs a list of tables</source>
        <translation>nötig ist eine Liste von Tabellen</translation>
    </message>
    <message>
        <source>next language</source>
        <translation>nächste Sprache</translation>
    </message>
    <message>
        <source>no</source>
        <translation>nein</translation>
    </message>
    <message>
        <source>no answer to this is in the file of answers</source>
        <translation>die Datei der Antworten hat darauf keine Antwort</translation>
    </message>
    <message>
        <source>no key begins the entry of &apos;{signal}&apos; here</source>
        <translation>keine Taste beginnt hier die Eingabe von „{signal}“</translation>
    </message>
    <message>
        <source>no screen has an entry field of {name}</source>
        <translation>kein Bild hat ein Eingabefeld von {name}</translation>
    </message>
    <message>
        <source>no step asks {question}</source>
        <translation>kein Schritt fragt {question}</translation>
    </message>
    <message>
        <source>no step of {case} asks {question}</source>
        <translation>kein Schritt von {case} fragt {question}</translation>
    </message>
    <message>
        <source>no stop key</source>
        <translation>keine Stopptaste</translation>
    </message>
    <message>
        <source>nobody agreed that the machine may move: {why}</source>
        <translation>niemand hat zugestimmt, dass sich die Maschine bewegen darf: {why}</translation>
    </message>
    <message>
        <source>nobody answered</source>
        <translation>niemand hat geantwortet</translation>
    </message>
    <message>
        <source>nobody answered within {minutes:.0f} minutes</source>
        <translation>innerhalb von {minutes:.0f} Minuten hat niemand geantwortet</translation>
    </message>
    <message>
        <source>nobody was asked</source>
        <translation>niemand wurde gefragt</translation>
    </message>
    <message>
        <source>not answered</source>
        <translation>nicht beantwortet</translation>
    </message>
    <message>
        <source>not tested</source>
        <translation>nicht geprüft</translation>
    </message>
    <message>
        <source>not within {seconds:.3g} s: {found}</source>
        <translation>nicht innerhalb von {seconds:.3g} s: {found}</translation>
    </message>
    <message>
        <source>only a simulated device can be operated this way, and no one was told how</source>
        <translation>nur ein simuliertes Gerät lässt sich so bedienen, und für Hand ist nichts angegeben</translation>
    </message>
    <message>
        <source>or such as &apos;1%&apos;, without blanks</source>
        <translation>oder etwa &apos;1%&apos;, ohne Leerzeichen</translation>
    </message>
    <message>
        <source>or such as &apos;{name}&apos;, which &apos;each&apos; has a value for</source>
        <translation>oder etwa &apos;{name}&apos;, wofür &apos;each&apos; einen Wert hat</translation>
    </message>
    <message>
        <source>or: {command}</source>
        <translation>oder: {command}</translation>
    </message>
    <message>
        <source>possible keys: {keys}</source>
        <translation>mögliche Schlüssel: {keys}</translation>
    </message>
    <message>
        <source>press {keys}</source>
        <translation>Tasten {keys} drücken</translation>
    </message>
    <message>
        <source>press {key}</source>
        <translation>Taste {key} drücken</translation>
    </message>
    <message>
        <source>press {key} {times} times</source>
        <translation>Taste {key} {times}-mal drücken</translation>
    </message>
    <message>
        <source>row {row}</source>
        <translation>Zeile {row}</translation>
    </message>
    <message>
        <source>row {row} is &apos;{text}&apos;</source>
        <translation>Zeile {row} ist „{text}“</translation>
    </message>
    <message>
        <source>row {row} is &apos;{text}&apos;, cell by cell</source>
        <translation>Zeile {row} ist „{text}“, Zelle für Zelle</translation>
    </message>
    <message>
        <source>row {row} is like &apos;{text}&apos;</source>
        <translation>Zeile {row} ist wie „{text}“</translation>
    </message>
    <message>
        <source>row {subject}</source>
        <translation>Zeile {subject}</translation>
    </message>
    <message>
        <source>running</source>
        <translation>im Lauf</translation>
    </message>
    <message>
        <source>screen</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>screen &apos;{screen}&apos; has no entry field of &apos;{signal}&apos;</source>
        <translation>Bild „{screen}“ hat kein Eingabefeld von „{signal}“</translation>
    </message>
    <message>
        <source>screen &apos;{screen}&apos; is shown</source>
        <translation>Bild „{screen}“ wird gezeigt</translation>
    </message>
    <message>
        <source>screen &apos;{screen}&apos;, row {row}</source>
        <translation>Bild „{screen}“, Zeile {row}</translation>
    </message>
    <message>
        <source>set &apos;{signal}&apos;</source>
        <translation>„{signal}“ setzen</translation>
    </message>
    <message>
        <source>simulated: {order}</source>
        <translation>simuliert: {order}</translation>
    </message>
    <message>
        <source>step {number} did not come true</source>
        <translation>Schritt {number} ist nicht eingetreten</translation>
    </message>
    <message>
        <source>such as 2027-03-01, without quotes</source>
        <translation>etwa 2027-03-01, ohne Anführungszeichen</translation>
    </message>
    <message>
        <source>the answer was no</source>
        <translation>die Antwort war nein</translation>
    </message>
    <message>
        <source>the calibration of &apos;{name}&apos; was due on {due}</source>
        <translation>die Kalibrierung von „{name}“ war am {due} fällig</translation>
    </message>
    <message>
        <source>the clean-up was stopped: look at the machine</source>
        <translation>das Aufräumen wurde abgebrochen: Maschine ansehen</translation>
    </message>
    <message>
        <source>the file of answers does not say may_move = true</source>
        <translation>in der Datei der Antworten steht nicht may_move = true</translation>
    </message>
    <message>
        <source>the instrument was not named</source>
        <translation>das Messgerät wurde nicht genannt</translation>
    </message>
    <message>
        <source>the key &apos;{key}&apos; stands twice in one table</source>
        <translation>der Schlüssel „{key}“ steht zweimal in einer Tabelle</translation>
    </message>
    <message>
        <source>the keys do not lead to {value}; the panel stays at {at}</source>
        <translation>die Tasten führen nicht zu {value}; das Panel bleibt bei {at}</translation>
    </message>
    <message>
        <source>the name {name} is taken by another case</source>
        <translation>den Namen {name} hat schon ein anderer Fall</translation>
    </message>
    <message>
        <source>the panel has no key &apos;{key}&apos;</source>
        <translation>das Panel hat keine Taste „{key}“</translation>
    </message>
    <message>
        <source>the panel has {rows} rows</source>
        <translation>das Panel hat {rows} Zeilen</translation>
    </message>
    <message>
        <source>the panel has {rows} rows, not {row}</source>
        <translation>das Panel hat {rows} Zeilen, nicht {row}</translation>
    </message>
    <message>
        <source>the panel lets {value} be entered</source>
        <translation>das Panel lässt {value} eingeben</translation>
    </message>
    <message>
        <source>the record was not written to {file}: {why}</source>
        <translation>das Protokoll wurde nicht nach {file} geschrieben: {why}</translation>
    </message>
    <message>
        <source>the run was stopped</source>
        <translation>der Lauf wurde abgebrochen</translation>
    </message>
    <message>
        <source>the screen</source>
        <translation>das Bild</translation>
    </message>
    <message>
        <source>the screen is not reached</source>
        <translation>Das Bild wird nicht erreicht</translation>
    </message>
    <message>
        <source>the signature was not written to {file}: {why}</source>
        <translation>die Signatur wurde nicht nach {file} geschrieben: {why}</translation>
    </message>
    <message>
        <source>the simulated device cannot be brought to it</source>
        <translation>Das simulierte Gerät lässt sich nicht dazu bringen</translation>
    </message>
    <message>
        <source>the stop of {signals} is not proved: look at the machine</source>
        <translation>der Stopp von {signals} ist nicht bestätigt: Maschine ansehen</translation>
    </message>
    <message>
        <source>the trial</source>
        <translation>der Abnahmelauf</translation>
    </message>
    <message>
        <source>there is no case {case} in the trial</source>
        <translation>in der Abnahme gibt es keinen Fall {case}</translation>
    </message>
    <message>
        <source>there is no device {name} in the project</source>
        <translation>im Projekt gibt es kein Gerät {name}</translation>
    </message>
    <message>
        <source>there is no event of this kind; the kinds are: {kinds}</source>
        <translation>diese Art von Ereignis gibt es nicht; es gibt: {kinds}</translation>
    </message>
    <message>
        <source>there is no key {name} on the panel</source>
        <translation>auf dem Panel gibt es keine Taste {name}</translation>
    </message>
    <message>
        <source>there is no screen {name} in the project</source>
        <translation>im Projekt gibt es kein Bild {name}</translation>
    </message>
    <message>
        <source>there is no signal {name} in the project</source>
        <translation>im Projekt gibt es kein Signal {name}</translation>
    </message>
    <message>
        <source>there is no such signal</source>
        <translation>dieses Signal gibt es nicht</translation>
    </message>
    <message>
        <source>this</source>
        <translation>dies</translation>
    </message>
    <message>
        <source>toggle &apos;{signal}&apos;</source>
        <translation>„{signal}“ umschalten</translation>
    </message>
    <message>
        <source>try to enter {value} for &apos;{signal}&apos;: must not be possible</source>
        <translation>{value} für „{signal}“ einzugeben versuchen: darf nicht möglich sein</translation>
    </message>
    <message>
        <source>use a newer version of this program</source>
        <translation>eine neuere Version dieses Programms verwenden</translation>
    </message>
    <message>
        <source>wait for {what}</source>
        <translation>warten auf {what}</translation>
    </message>
    <message>
        <source>wait until {what}</source>
        <translation>warten, bis {what}</translation>
    </message>
    <message>
        <source>wait {seconds} s</source>
        <translation>{seconds} s warten</translation>
    </message>
    <message>
        <source>what an earlier run has changed was not put back: look at the machine</source>
        <translation>was ein früherer Lauf geändert hat, wurde nicht zurückgestellt: Maschine ansehen</translation>
    </message>
    <message>
        <source>whoever has the key {fingerprint}</source>
        <translation>wer den Schlüssel {fingerprint} hat</translation>
    </message>
    <message>
        <source>write &apos;format = {format}&apos; at the top</source>
        <translation>oben „format = {format}“ schreiben</translation>
    </message>
    <message>
        <source>write &apos;text&apos; instead, if it is what the panel says for the value</source>
        <translation>&apos;text&apos; schreiben, wenn gemeint ist, was das Panel zu dem Wert sagt</translation>
    </message>
    <message>
        <source>write &apos;{held}&apos; to &apos;{signal}&apos;</source>
        <translation>„{held}“ nach „{signal}“ schreiben</translation>
    </message>
    <message>
        <source>write [[{keys}]] instead of [{keys}]</source>
        <translation>[[{keys}]] statt [{keys}] schreiben</translation>
    </message>
    <message>
        <source>write the text of the step that asks</source>
        <translation>den Text des Schritts schreiben, der fragt</translation>
    </message>
    <message>
        <source>write {value} to &apos;{signal}&apos;</source>
        <translation>{value} nach „{signal}“ schreiben</translation>
    </message>
    <message>
        <source>written to &apos;{subject}&apos;</source>
        <translation>geschrieben in „{subject}“</translation>
    </message>
    <message>
        <source>yes</source>
        <translation>ja</translation>
    </message>
    <message>
        <source>{count} keys are pressed at the device, drawn at random of: {keys}. Screens: {screens}. At the end: {stop}. Values that are entered are written, within their limits, and put back afterwards. This can move the machine. Is everybody clear of it?</source>
        <translation>Am Gerät werden {count} zufällige Tasten gedrückt, aus: {keys}. Bilder: {screens}. Am Ende: {stop}. Eingegebene Werte werden geschrieben, in ihren Grenzen, und danach zurückgestellt. Das kann die Maschine bewegen. Sind alle außer Reichweite?</translation>
    </message>
    <message>
        <source>{file} cannot be moved: {why}</source>
        <translation>{file} lässt sich nicht verschieben: {why}</translation>
    </message>
    <message>
        <source>{file} cannot be read: {why}</source>
        <translation>{file} lässt sich nicht lesen: {why}</translation>
    </message>
    <message>
        <source>{file} cannot be written: {why}</source>
        <translation>{file} lässt sich nicht schreiben: {why}</translation>
    </message>
    <message>
        <source>{file} has {most} signatures already</source>
        <translation>{file} hat schon {most} Signaturen</translation>
    </message>
    <message>
        <source>{file} is by the same key already</source>
        <translation>{file} ist schon von demselben Schlüssel</translation>
    </message>
    <message>
        <source>{file} is empty</source>
        <translation>{file} ist leer</translation>
    </message>
    <message>
        <source>{file} is not a record of a trial: {why}</source>
        <translation>{file} ist kein Abnahmeprotokoll: {why}</translation>
    </message>
    <message>
        <source>{file} is not a regular file</source>
        <translation>{file} ist keine gewöhnliche Datei</translation>
    </message>
    <message>
        <source>{file} is of a run that was not finished, and is not signed</source>
        <translation>{file} ist von einem Lauf, der nicht zu Ende kam, und wird nicht unterschrieben</translation>
    </message>
    <message>
        <source>{file} is too large for a record</source>
        <translation>{file} ist zu groß für ein Protokoll</translation>
    </message>
    <message>
        <source>{file}, line {number}: this is not what is kept of a trial</source>
        <translation>{file}, Zeile {number}: das ist nicht, was von einer Abnahme aufgehoben wird</translation>
    </message>
    <message>
        <source>{file}: DOES NOT COUNT: signed by {who}, but {refusal}</source>
        <translation>{file}: GILT NICHT: unterschrieben von {who}, aber {refusal}</translation>
    </message>
    <message>
        <source>{file}: NOT GOOD: {wrong}</source>
        <translation>{file}: NICHT GUT: {wrong}</translation>
    </message>
    <message>
        <source>{file}: good, signed by {who}</source>
        <translation>{file}: gut, unterschrieben von {who}</translation>
    </message>
    <message>
        <source>{file}: {count} problems</source>
        <translation>{file}: {count} Probleme</translation>
    </message>
    <message>
        <source>{file}: {result}, against {against}, {began:%Y-%m-%d %H:%M} UTC</source>
        <translation>{file}: {result}, gegen {against}, {began:%Y-%m-%d %H:%M} UTC</translation>
    </message>
    <message>
        <source>{file}: {wrong}</source>
        <translation>{file}: {wrong}</translation>
    </message>
    <message>
        <source>{found} is outside of {range}</source>
        <translation>{found} liegt außerhalb von {range}</translation>
    </message>
    <message>
        <source>{hole} stands for a value that row {row} of &apos;each&apos; does not have</source>
        <translation>{hole} steht für einen Wert, den Zeile {row} von „each“ nicht hat</translation>
    </message>
    <message>
        <source>{hole} stands for a value, but there is no &apos;each&apos;</source>
        <translation>{hole} steht für einen Wert, aber es gibt kein „each“</translation>
    </message>
    <message>
        <source>{key} does not belong here</source>
        <translation>{key} gehört nicht hierher</translation>
    </message>
    <message>
        <source>{key} is missing</source>
        <translation>{key} fehlt</translation>
    </message>
    <message>
        <source>{low} to {high} {unit}</source>
        <translation>{low} bis {high} {unit}</translation>
    </message>
    <message>
        <source>{number} is a number with decimals, which such a file does not have</source>
        <translation>{number} ist eine Zahl mit Nachkommastellen, die hier keinen Platz hat</translation>
    </message>
    <message>
        <source>{order} is not DEVICE.WHAT=VALUE, such as pump.jammed=on</source>
        <translation>{order} ist nicht GERÄT.WAS=WERT, etwa pump.jammed=on</translation>
    </message>
    <message>
        <source>{value} ± {tolerance}</source>
        <translation>{value} ± {tolerance}</translation>
    </message>
    <message>
        <source>{what}: simulated {simulated}, device {device}</source>
        <translation>{what}: simuliert {simulated}, Gerät {device}</translation>
    </message>
</context>
<context>
    <name>trouble</name>
    <message>
        <source>A device is off or not connected, or a contact is loose</source>
        <translation>Ein Gerät ist aus oder nicht angeschlossen, oder ein Kontakt ist lose</translation>
    </message>
    <message>
        <source>Another protocol is spoken, or ASCII mode</source>
        <translation>Es wird ein anderes Protokoll gesprochen, oder ASCII-Modus</translation>
    </message>
    <message>
        <source>At {settings} {count} of {total} characters have a wrong parity bit, but their stop bits are right.</source>
        <translation>Bei {settings} haben {count} von {total} Zeichen ein falsches Paritätsbit, ihre Stoppbits stimmen aber.</translation>
    </message>
    <message>
        <source>At {settings} {total} characters came undamaged, but no frame.</source>
        <translation>Bei {settings} kamen {total} Zeichen unbeschädigt an, aber kein Telegramm.</translation>
    </message>
    <message>
        <source>Check supply and terminals (is it the right pair?), and whether the device is set to be operated over the line.</source>
        <translation>Versorgung und Klemmen prüfen (ist es das richtige Paar?), und ob das Gerät auf Betrieb über die Leitung eingestellt ist.</translation>
    </message>
    <message>
        <source>Connect the common terminals of all devices and of the adapter with a third wire; where their supplies are far apart, use an isolated adapter.</source>
        <translation>Die Bezugspotenziale (Common) aller Geräte und des Adapters mit einer dritten Ader verbinden; wo die Versorgungen weit auseinanderliegen, einen galvanisch getrennten Adapter verwenden.</translation>
    </message>
    <message>
        <source>Devices that do answer were silent {count} times of {total}.</source>
        <translation>Geräte, die sonst antworten, schwiegen {count} von {total} Mal.</translation>
    </message>
    <message>
        <source>Disconnect one device after the other until its answers are sound and come once. If only one is there, check its own wiring, and converters that send twice.</source>
        <translation>Ein Gerät nach dem anderen abklemmen, bis die Antworten unbeschädigt und nur einmal kommen. Ist nur eines vorhanden: dessen Verdrahtung prüfen, und Umsetzer, die doppelt senden.</translation>
    </message>
    <message>
        <source>Frames are sound, but {count} of {total} characters have a wrong parity bit.</source>
        <translation>Die Telegramme sind unbeschädigt, aber {count} von {total} Zeichen haben ein falsches Paritätsbit.</translation>
    </message>
    <message>
        <source>Frames are sound, but {count} of {total} characters have no stop bit where one is expected: the devices send a parity bit.</source>
        <translation>Die Telegramme sind unbeschädigt, aber {count} von {total} Zeichen haben kein Stoppbit, wo eines erwartet wird: Die Geräte senden ein Paritätsbit.</translation>
    </message>
    <message>
        <source>Look up which protocol the devices are set to, and set them to RTU mode.</source>
        <translation>Nachsehen, auf welches Protokoll die Geräte eingestellt sind, und sie auf RTU-Modus einstellen.</translation>
    </message>
    <message>
        <source>Nobody answered, which has several causes; check in this order.</source>
        <translation>Niemand hat geantwortet; das hat mehrere mögliche Ursachen. In dieser Reihenfolge prüfen.</translation>
    </message>
    <message>
        <source>Not one character came back for {count} requests; speeds tried: {tried}.</source>
        <translation>Auf {count} Anfragen kam kein einziges Zeichen zurück; versuchte Baudraten: {tried}.</translation>
    </message>
    <message>
        <source>Nothing that was received points to trouble on the line.</source>
        <translation>Nichts von dem, was empfangen wurde, deutet auf eine Störung der Leitung hin.</translation>
    </message>
    <message>
        <source>Of {total} characters {count} are zeros or a single run of ones, and no frame is sound; speeds tried: {tried}.</source>
        <translation>Von {total} Zeichen sind {count} Nullen oder eine einzige Folge von Einsen, und kein Telegramm ist unbeschädigt; versuchte Baudraten: {tried}.</translation>
    </message>
    <message>
        <source>Of {total} characters {count} have no stop bit where one is expected, and no frame is sound; speeds tried: {tried}.</source>
        <translation>Von {total} Zeichen haben {count} kein Stoppbit, wo eines erwartet wird, und kein Telegramm ist unbeschädigt; versuchte Baudraten: {tried}.</translation>
    </message>
    <message>
        <source>Our own requests came back, but no answer to any of {count}; speeds tried: {tried}.</source>
        <translation>Die eigenen Anfragen kamen zurück, aber auf keine von {count} eine Antwort; versuchte Baudraten: {tried}.</translation>
    </message>
    <message>
        <source>Put 120 ohm at both ends of the line and nowhere else, connect the shield, avoid stubs, and keep away from motor cables.</source>
        <translation>120 Ohm an beiden Enden der Leitung und nirgends sonst anbringen, den Schirm auflegen, Stichleitungen vermeiden und Abstand zu Motorleitungen halten.</translation>
    </message>
    <message>
        <source>Shorten the turn-off delay of the adapter, or increase the answer delay of the device.</source>
        <translation>Die Abschaltverzögerung des Adapters verkürzen oder die Antwortverzögerung des Geräts verlängern.</translation>
    </message>
    <message>
        <source>Swap the two data wires at the adapter; makers do not agree on which is A and which is B.</source>
        <translation>Die beiden Datenadern am Adapter tauschen; die Hersteller sind sich nicht einig, welche A und welche B ist.</translation>
    </message>
    <message>
        <source>Switch on the bias resistors at one place of the line, and see that there are no more than two terminations.</source>
        <translation>Die Ruhepegelwiderstände (Bias) an einer Stelle der Leitung einschalten, und darauf achten, dass es nicht mehr als zwei Abschlüsse gibt.</translation>
    </message>
    <message>
        <source>The adapter repeats what is sent (echo)</source>
        <translation>Der Adapter wiederholt, was gesendet wird (Echo)</translation>
    </message>
    <message>
        <source>The adapter switches to receiving too late</source>
        <translation>Der Adapter schaltet zu spät auf Empfang um</translation>
    </message>
    <message>
        <source>The common (ground) wire between the devices is missing</source>
        <translation>Die gemeinsame Bezugsader (Masse) zwischen den Geräten fehlt</translation>
    </message>
    <message>
        <source>The connection stands, but none of {count} requests was answered. Check the host and its port, and whether Modbus TCP is switched on at the device; many serve only a few clients at a time.</source>
        <translation>Die Verbindung steht, aber keine von {count} Anfragen wurde beantwortet. Host und Port prüfen, und ob Modbus TCP am Gerät eingeschaltet ist; viele bedienen nur wenige Clients gleichzeitig.</translation>
    </message>
    <message>
        <source>The line floats between frames</source>
        <translation>Die Leitung hat zwischen den Telegrammen keinen festen Ruhepegel</translation>
    </message>
    <message>
        <source>The line is disturbed: termination, shield or cable</source>
        <translation>Die Leitung ist gestört: Abschluss, Schirm oder Kabel</translation>
    </message>
    <message>
        <source>The line rests at the wrong level: only a break came whenever the port was set to another speed.</source>
        <translation>Die Leitung ruht auf dem falschen Pegel: Es kam nur ein Break, sobald der Anschluss auf eine andere Baudrate gestellt wurde.</translation>
    </message>
    <message>
        <source>The parity is another one</source>
        <translation>Die Parität ist eine andere</translation>
    </message>
    <message>
        <source>The speed is another one</source>
        <translation>Die Baudrate ist eine andere</translation>
    </message>
    <message>
        <source>The two data wires are swapped</source>
        <translation>Die beiden Datenadern sind vertauscht</translation>
    </message>
    <message>
        <source>This computer lost characters</source>
        <translation>Dieser Rechner hat Zeichen verloren</translation>
    </message>
    <message>
        <source>This is not a fault, and shows that the adapter works. Say in the settings of the line that the adapter echoes.</source>
        <translation>Das ist kein Fehler und zeigt, dass der Adapter arbeitet. In den Einstellungen der Leitung angeben, dass der Adapter ein Echo liefert.</translation>
    </message>
    <message>
        <source>Too early to say: so far none of {count} requests was answered. Search on.</source>
        <translation>Noch nicht zu sagen: Bisher wurde keine von {count} Anfragen beantwortet. Weitersuchen.</translation>
    </message>
    <message>
        <source>Too little was received to say anything about the line.</source>
        <translation>Es wurde zu wenig empfangen, um etwas über die Leitung zu sagen.</translation>
    </message>
    <message>
        <source>Try the other parities at the same speed.</source>
        <translation>Die anderen Paritäten bei derselben Baudrate versuchen.</translation>
    </message>
    <message>
        <source>Try the remaining speeds, or read the speed off the device.</source>
        <translation>Die übrigen Baudraten versuchen oder die Baudrate am Gerät ablesen.</translation>
    </message>
    <message>
        <source>Two devices have the same unit address</source>
        <translation>Zwei Geräte haben dieselbe Geräteadresse</translation>
    </message>
    <message>
        <source>Use another port or adapter, or a lower speed; the line itself is not to blame.</source>
        <translation>Einen anderen Anschluss oder Adapter oder eine niedrigere Baudrate verwenden; an der Leitung selbst liegt es nicht.</translation>
    </message>
    <message>
        <source>What came consists of colons, digits and the letters A to F, as in ASCII mode.</source>
        <translation>Was kam, besteht aus Doppelpunkten, Ziffern und den Buchstaben A bis F, wie im ASCII-Modus.</translation>
    </message>
    <message>
        <source>What was received does not tell what is wrong.</source>
        <translation>Was empfangen wurde, lässt nicht erkennen, was falsch ist.</translation>
    </message>
    <message>
        <source>What was received does not tell which it is; check in this order.</source>
        <translation>Was empfangen wurde, lässt nicht erkennen, welche Ursache es ist; in dieser Reihenfolge prüfen.</translation>
    </message>
    <message>
        <source>What was received points to one cause more than to others.</source>
        <translation>Was empfangen wurde, spricht für eine Ursache mehr als für andere.</translation>
    </message>
    <message>
        <source>likely</source>
        <translation>wahrscheinlich</translation>
    </message>
    <message>
        <source>possible</source>
        <translation>möglich</translation>
    </message>
    <message>
        <source>very likely</source>
        <translation>sehr wahrscheinlich</translation>
    </message>
    <message>
        <source>{count} answers lacked nothing but their first byte.</source>
        <translation>{count} Antworten fehlte nur das erste Byte.</translation>
    </message>
    <message>
        <source>{count} characters were lost because nobody fetched them in time (overruns).</source>
        <translation>{count} Zeichen gingen verloren, weil sie nicht rechtzeitig abgeholt wurden (Überläufe).</translation>
    </message>
    <message>
        <source>{count} of {total} answers are garbled, {single} of them by a single bit.</source>
        <translation>{count} von {total} Antworten sind verstümmelt, {single} davon durch ein einzelnes Bit.</translation>
    </message>
    <message>
        <source>{count} of {total} answers of unit {unit} are garbled, but hardly any of the other devices&apos;.</source>
        <translation>{count} von {total} Antworten der Adresse {unit} sind verstümmelt, die der anderen Geräte dagegen kaum.</translation>
    </message>
    <message>
        <source>{count} of {total} requests came back.</source>
        <translation>{count} von {total} Anfragen kamen zurück.</translation>
    </message>
    <message>
        <source>{count} requests to unit {unit} were answered twice.</source>
        <translation>{count} Anfragen an Adresse {unit} wurden doppelt beantwortet.</translation>
    </message>
    <message>
        <source>{count} stray characters came in {seconds} s in which nothing was sent.</source>
        <translation>{count} verirrte Zeichen kamen in {seconds} s, in denen nichts gesendet wurde.</translation>
    </message>
</context>
<context>
    <name>typed</name>
    <message>
        <source>&apos;{text}&apos; can mean {small} or {large}; write it so that only one is possible</source>
        <translation>„{text}“ kann {small} oder {large} bedeuten; eindeutig schreiben</translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a whole number</source>
        <translation>„{text}“ ist keine ganze Zahl</translation>
    </message>
    <message>
        <source>enter a number</source>
        <translation>eine Zahl eingeben</translation>
    </message>
    <message>
        <source>enter a whole number</source>
        <translation>eine ganze Zahl eingeben</translation>
    </message>
    <message>
        <source>enter both numbers, or neither</source>
        <translation>beide Zahlen angeben oder keine</translation>
    </message>
</context>
<context>
    <name>waiting</name>
    <message>
        <source>Stop waiting</source>
        <translation>Warten abbrechen</translation>
    </message>
</context>
</TS>
