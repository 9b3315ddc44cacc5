<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de_DE" sourcelanguage="en">
<context>
    <name>AboutDialog</name>
    <message>
        <source>About Fanlight</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Design small text panels for Modbus devices, prove them against the device or a simulation of it, and hand them over.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ActionForm</name>
    <message>
        <source>(the first entry field)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change action</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Does</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Held value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a condition, once it begins</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a held value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a key</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>begins entry</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>clears the signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sets it while the key is held</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sets the signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shows the next language</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the project has no held value yet; add one in the Signals view</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this needs a signal, and the project has none yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>toggles the signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>writes a value to it</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ArmingBadge</name>
    <message>
        <source>ARMED: keys write to {lines}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not armed: only reading</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not connected: nothing is written</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Simulated: nothing real can move</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ArmingDialog</name>
    <message>
        <source>Arm: let Fanlight write</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>From now on keys of the panel can write to a real line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Hold to arm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines to be armed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Now hold the button, with the mouse or the space bar, until its bar is full.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Press and hold, with the mouse or the space bar, until the bar is full.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Read and tick each of these:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} still to tick.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>BehaviourView</name>
    <message>
        <source>A condition needs a signal; add one first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A turn leads to a screen; add one first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Actions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add action</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add turn</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>After idle time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>An action needs a signal; add one first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>By a condition</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>By a key</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Cause</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete action</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete turn</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Does</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate action</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate turn</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move action</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move turn</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The panel has no keys; name some in its properties first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Turns</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>BenchWorkplace</name>
    <message>
        <source>&amp;Arm…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Connect</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Disarm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Operate the panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Connect</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Connect &amp;to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Connect again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Connect to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>D&amp;isconnect</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Disconnect</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Filter the readin&amp;gs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Live, simulated: {where}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Live: {where}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not answering: {names}; on {where}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not connected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Readings that are &amp;not good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Simulated &amp;followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The design was changed since this was connected. The panel still runs as it was.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To &amp;simulated followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To the &amp;real line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>connect to the real line first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>disconnect first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is armed already</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing is armed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing is connected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>simulated followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the project has none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the real line: {lines}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>CautionsDialog</name>
    <message>
        <source>Cautions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fanlight can write to a machine. Before it does, all of this must hold:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fanlight only reads until a line is armed, and disarms when you disconnect, close the window or press Disarm. A follower may go on with the last command it got: set its communication time-out so that it stops by itself when the panel falls silent.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ChoiceRow</name>
    <message>
        <source>(choose)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} (missing)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>CommandFinder</name>
    <message>
        <source>Command</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Commands and places</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Enter does it, Escape goes back.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Find a command</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the follower {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the line {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the screen {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the signal {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It cannot be used now.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It cannot be used now: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keys</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>More that fit: {count}. Type on to narrow the list.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nothing has such a name. Fewer letters find more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Parts of a command, screen or signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What to find</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place} (not now)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ConditionRow</name>
    <message>
        <source>(never)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a value to compare with is needed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>equals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is above</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is below</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is clear</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>is set</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}: comparison</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}: signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label}: value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} (missing)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>DesignWorkplace</name>
    <message>
        <source>&amp;Add a screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Delete the field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Place a field…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Rename the screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Action {n}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>D&amp;uplicate the field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Follower &apos;{name}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the &amp;findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go to the pr&amp;operties</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line &apos;{name}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines and followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ne&amp;xt screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Page map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pre&amp;vious screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show: {view}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signal &apos;{name}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Turn {n}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Turns and actions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Views</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>EditorBar</name>
    <message>
        <source>As large as fits (Ctrl+0)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete the field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete the selected fields (Delete)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Insert</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keys</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Larger</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Larger cells (Ctrl++)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Marks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Overwrite</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place a field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place a field at the cursor (Ctrl+Enter)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sample values</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show the keys of the panel; pressing one goes where it turns</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Smaller</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Smaller cells (Ctrl+-)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Typing overwrites or inserts (Insert)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the fields show</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the fields show while you design</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Widest values</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>FieldForm</name>
    <message>
        <source>1 cell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bar range</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Blinks when</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Column</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Empty at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Entry</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Full at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Needs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No field is selected. Put the cursor on one, or place a new one at the cursor with Ctrl+Enter.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of its first cell, counted from 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Properties of the signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row, column</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shown as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The values of the empty and of the full bar. Empty: the limits of the signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Width</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a signal that exists</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>any width</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cells</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the operator may change it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{cells} for {low} to {high} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} cells</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} fields are selected.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>FileBar</name>
    <message>
        <source>Close the message about the file</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>FindingsList</name>
    <message numerus="yes">
        <source>%n not taken over</source>
        <translation type="unfinished">
            <numerusform></numerusform>
            <numerusform></numerusform>
        </translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not taken over: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Findings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Findings of the design checks</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What is wrong</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What to do</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>correct it there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>error</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>errors</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not taken over</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>note</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>notes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing found</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>warning</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>warnings</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>FollowerCard</name>
    <message>
        <source>, last {age} ago</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>, {ms} ms</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Own values of {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Simulated:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not connected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}, unit {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>… not asked yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>⚠ not answering</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>✓ answering</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>FollowerForm</name>
    <message>
        <source>&apos;{text}&apos; ends before it begins</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no range; write them as: holding 500-599, input 7</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Byte order</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changing it changes every use</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Function codes that it offers for writing: 5, 6, 15, 16, and 22 for bits by mask</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Gaps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How its manual counts registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>It stops by itself when the line is silent this long. 0: it does not</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Its address on the line, 1 to 247</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line silence</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Longest read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Never read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Numbering</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the two bytes of each word</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the words of a value of two or more registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Ranges in its own numbering, such as: holding 500-599, input 7. Never read, not even along</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Simulated as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The most registers that it answers in one read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What plays it when there is no device at hand</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Word order</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Writes with</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bank of registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>drive with motor and load</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from 0, as on the wire</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>from 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>high first (the standard)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>low first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>prefixed by the table (40001)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>registers that no signal names may be read along</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{code} is not one of 5, 6, 15, 16 and 22</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Inspector</name>
    <message>
        <source>Field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No action is selected. Choose one in the table, or add one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No follower is selected. Choose one in the table, or add one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No line is selected. Choose one in the table, or add one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No signal is selected. Choose one in the table, or add one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No turn is selected. Choose one in the table, or add one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Properties of</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Screen</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>KeyPad</name>
    <message>
        <source>On the keyboard: %s</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>LineFigures</name>
    <message>
        <source>Copy the statistics</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Faults</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Good answers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One pass of reads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Requests</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Statistics</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Statistics of the line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wire in use</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{follower}: 95 % within</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{follower}: turnaround</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{follower}: worst</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>LineForm</name>
    <message>
        <source>A name or an address</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Baud</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changing it changes every use</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Host</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How long an answer may take</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Modbus TCP</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Parity</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Port</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>RTU frames over TCP</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Stop bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Such as /dev/ttyUSB0 or COM3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>TCP port</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Time-out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>even</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>odd</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>serial port (RTU)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>LineStrip</name>
    <message>
        <source>Each mark is one transaction, the newest at the right. Stroke: a good read. Dot: a good write. Cross: a fault; its words stand beside. Left and Right step through them; Enter or a double click shows the bytes.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line strip</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line: not connected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>good: {good}, faults: {faults}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>just now</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not connected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{seconds} s ago</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{what}, {ms} ms</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>LineView</name>
    <message>
        <source>&amp;Copy a line each</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Empty the list</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Pause</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Save as text…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A line for each transaction (*.txt)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>All followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Close the line view</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Copy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Copy a line each</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Copy in &amp;words</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Every byte in words (*.txt)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>F&amp;ilter the transactions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Filter of the transactions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Filter: part of a signal, fault, register or bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Go on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Newest</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not saved</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Only &amp;faults</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Only faults</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Pause</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paused: {waiting} waiting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save the transactions as text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To the &amp;newest</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Which follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} cannot be written: {why}. Choose another folder or name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{shown} of {total} shown</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{total} shown</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>LinesView</name>
    <message>
        <source>A follower answers on a line; add one first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Simulated as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Time-out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Where</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Live</name>
    <message>
        <source>The project has no line, so there is nothing to connect to. Add a line first.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>MainWindow</name>
    <message>
        <source>Perhaps still on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The line did not confirm that these signals were let go: {signals}. They may still be on. Look at the machine before anyone goes near it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This transaction is kept no longer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name}[*] – Fanlight</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Notice</name>
    <message>
        <source>Close the message</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PageMap</name>
    <message>
        <source>1 press</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Errors: {count}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Page map</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Warnings: {count}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>after {seconds} s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>by condition only</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>idle {seconds} s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>key {key} from every screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no way back</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no way here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>number {n} of {count} in the ring</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>start</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>when {condition}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{key}, any screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{label} and {n} more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{n} presses</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PanelFace</name>
    <message>
        <source>Panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Panel of {rows} rows of {columns} cells</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PanelForm</name>
    <message>
        <source>1 to 132</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 to 64</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A signal whose value is the number of the language; 0 is the first one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Abandoned after</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>About</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changed by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Characters</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Chosen by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Columns</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key for less</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key for more</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key to abandon</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key to begin</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key to confirm</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key to the left</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key to the right</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keys</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Languages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Languages of its texts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Notes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of the project, as it stands in its documents</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Seconds without a key after which the change is abandoned. 0: never</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Start screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take a language out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Take out the language “{name}”</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Their names, with commas between: left, right, up, down, enter, escape, F1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Their names, with commas between; the first is shown where another has no text. Empty: one only</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Title</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the panel&apos;s display can show</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>While the operator changes a value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>digits, one after the other</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>keys, by an action</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>steps</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the key &apos;{name}&apos; stands there twice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there are texts in “{name}”; take that language out by the button</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PanelKey</name>
    <message>
        <source>Key %s</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PartForm</name>
    <message>
        <source>Rename</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>PartTable</name>
    <message>
        <source>Add</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add (Insert)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete (Delete)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate (Ctrl+D)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move down</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move down (Alt+Down)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move up (Alt+Up)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Narrow the list</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ProblemsDialog</name>
    <message>
        <source>&amp;Copy as text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>... and {count} more.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Problems</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ProjectFiles</name>
    <message>
        <source>&amp;New…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Open…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Reload</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Save</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fanlight projects (*{suffix});;All files (*)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No recovery copy can be written to {folder}: {reason}. Save often.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open a project</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Opening {file}…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Re&amp;load from the disk</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reload</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reloaded {file}; undo brings back what was here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save it &amp;there again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save the project as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Saved {file}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Saved; the other version is {file}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Saving {file}…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The drive of {file} does not answer. Perhaps it was saved, perhaps not: save elsewhere</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This file cannot be opened</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This project was never saved; there is nothing to reload</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>untitled</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} can only be read: you may edit it, but it must be saved under another name.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} cannot be opened. Problems found: {count}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is gone or cannot be read: deleted, renamed, or its drive was taken away. What you see is all there is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is open in another window too. You can edit it here; if both are saved, the second one is asked first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} is the same</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} was changed by another program, and you have changes that are not saved.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} was changed by another program.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} was not opened: the drive does not answer</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Quality</name>
    <message>
        <source>good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>implausible</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>never read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>refused</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stale</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ReadingsModel</name>
    <message>
        <source>Age</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Quality</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Raw</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Reason</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ReadingsTable</name>
    <message>
        <source>Copy the selected readings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Filter of the readings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Filter: part of a name, value, quality or reason</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Only those that are &amp;not good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Readings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>all {total} good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no signals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not read yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} of {total} not good</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>RecentFiles</name>
    <message>
        <source>&amp;Empty this list</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Take off those that are not found</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Open &amp;recent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file}  –  {folder} (not found)</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ScreenCommands</name>
    <message>
        <source>Clear cells</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete fields</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move fields</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Resize field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Select a field to move it: put the cursor on it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Select one field to change its width: put the cursor on it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Select one field to duplicate it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is no room on this screen for another field of that width.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Type</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ScreenEditor</name>
    <message>
        <source> (needs {needed})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{name}&apos;, a signal that does not exist</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; can be {low} to {high} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; entry</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; {count} fields selected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>; {rows} x {columns} cells selected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Copy text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On this screen the key &apos;{key}&apos; turns to no other.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paste</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Paste text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place a field…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Properties</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row}, column {column}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Show as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The text on the clipboard needs {rows} x {columns} cells; there is no such room at the cursor.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This project has no screen yet.
Add one with the plus sign over the list at the left.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Turns no screen here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Turns to &apos;{screen}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Under the cursor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{signal}, {width} wide</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ScreenForm</name>
    <message>
        <source> (from every screen)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source> (on every screen)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>About</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Actions of its keys</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add a turn from here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add an action here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change the start screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changing it changes every use</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Enter or a double click shows it in the Turns and actions view</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Make it the start screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Notes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This is the start screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Turns from here and to here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>here by {cause} from {screen}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shown {cause}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{cause} N{RIGHTWARDS ARROW} {to}{where}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{cause} {deed}{where}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ScreensList</name>
    <message>
        <source>Add a screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add a screen (Insert)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete the screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete the screen (Delete)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate the screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate the screen (Ctrl+D)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Make it the start screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move the screen down</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move the screen down (Alt+Down)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move the screen up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move the screen up (Alt+Up)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rename</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Screens</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ScreensPane</name>
    <message>
        <source>Add screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change the start screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete it with these turns</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Rename screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>has errors</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no way back</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no way here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>start</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>when {condition}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ShortcutsDialog</name>
    <message>
        <source>Command</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keys</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keys and shortcuts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The panel, while it has the focus</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>SignalForm</name>
    <message>
        <source>0 = stopped
1 = running</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 cell</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A text per value, one a line: 1 = running</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>About</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Can be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changed and read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changing it changes every use</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Counted from 0 at the least significant end</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Decimals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Encoding</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>First content</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>For followers with a communication time-out: the value is written again and again. 0: it is not</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How fresh the value should be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Kind</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lower limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Notes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Of signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On the wire</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Read every</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Registers of the text, two characters each</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Scale, from</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Scale, to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shown</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Source</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Start value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Step</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Texts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The address in the request, counted from 0</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The least and the greatest value that may be entered</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The number as the follower&apos;s manual gives it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Two points of a straight line: raw counts of the register, and what they mean. Empty: as read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Upper limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Used by</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What a simulated follower holds at first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What one press of a key changes. Empty: one unit of the last decimal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the value is when the panel is switched on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write every</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Writing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>address {address}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>addresses {first} to {last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>anything, since it has no limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>coil</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>discrete input</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>held in the panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>holding register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>input register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line {n}: the value {key} has a text already</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line {n}: write value = text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line {n}: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>may be written</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one bit of another signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>raw is</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read from a follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the other point is needed too, or none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{low} to {high} {unit}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{wide} cells</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>SignalPicker</name>
    <message>
        <source>Kind of field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Narrow the signals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>New signal…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>No signal has that name. Create it in the Signals view first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Place a field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Shown as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signal name or place</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bar</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bit {number} of {of}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>held in the panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>text per value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{width} cells wide</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>SignalsView</name>
    <message>
        <source>A bit is taken of a register signal; add one of those first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A register belongs to a follower; add one first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Add signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Delete signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Duplicate signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Held in the panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Limits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lines and followers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Move signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>One bit of another signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Read from a follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Source</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Uses</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>yes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{low} to {high}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>SimulatedSwitches</name>
    <message>
        <source>&amp;External fault</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Local</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As if unplugged from the line: it neither hears nor answers.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Does not &amp;answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Somebody switched the drive to local: the line commands it no longer.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The drive&apos;s external fault input is tripped, and it stops with a fault until that is reset.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Template</name>
    <message>
        <source>Blank, {rows} rows of {columns}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Copy of the demo: {name}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>main</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>TemplateDialog</name>
    <message>
        <source>C&amp;reate</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>New project</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Start from:</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Templates</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>TransactionParts</name>
    <message>
        <source>Bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bytes of the transaction</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Choose a transaction to see its bytes taken apart.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Copy this transaction in words</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Meaning</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Part</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Received</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Received: nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Sent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{way}: {what}, {count} bytes</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>TransactionsModel</name>
    <message>
        <source>Follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Milliseconds from the request to the complete answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Milliseconds that it should take</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Predicted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Result</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ms</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>TransactionsTable</name>
    <message>
        <source>Transactions</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>Tryout</name>
    <message>
        <source>Back to editing (Space)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Entered {signal}: {old} became {new}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Keys of the panel: {keys}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Refused: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Trying it with simulated values. Nothing is connected, and no machine can move.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Turned to “{screen}”: {cause}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the panel did last</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Wrote {value} to {signal}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>TurnForm</name>
    <message>
        <source>After this time without a key the panel turns by itself.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Change turn</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Idle for</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Meaning</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On every screen, except where the same key has a turn of its own.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On this screen the key turns there.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Seconds without a key</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>To</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>While the condition holds, this screen is shown instead of where the operator is. Of several overrides the first of the list that holds is shown.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a condition (override)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a key</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>idle time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the next screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the previous screen</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>ValueSetter</name>
    <message>
        <source>Set</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Set its</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Signal to set</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value to set</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>⚠ “{text}” is not a number</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>WindowMenus</name>
    <message>
        <source>&amp;About Fanlight</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Appearance</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Bench</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Cautions</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Dark</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Design</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Edit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Find a command…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Full screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Keys and shortcuts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Light</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Line strip</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Redo: {step}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Undo: {step}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Workplace</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>As the &amp;system</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>In its &amp;own window</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line &amp;view</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no such step</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>_CausedForm</name>
    <message>
        <source>Cause</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Condition</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Key</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>On</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a condition needs a signal, and the project has none yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>choose the signal of the condition</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>every screen</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>_LineDock</name>
    <message>
        <source>Line view</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>_Notice</name>
    <message>
        <source>Dismiss</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>bus</name>
    <message>
        <source>&apos;{text}&apos; is no endpoint; write {forms}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not {scheme}://HOST:PORT, such as {scheme}://192.168.0.10:{port}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; names no port; the usual one is {port}: {whole}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; names no serial port; write serial:DEVICE, such as serial:/dev/ttyUSB0 or serial:COM3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos;: port {port} is outside 1..65535</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0 to 15</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0, a broadcast to all units</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>0, return query data</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 bit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 byte</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>1 register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>AND mask</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>OR mask</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a code of the follower&apos;s own; see its manual</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a frame that does not answer this request</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a part of {name}, which has {count} registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>acknowledged, but not read back: {sentence}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>address</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an answer came with transaction number {found}; asked was {asked}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another client</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another client asked unit {asked} while unit {unit} was to answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another client asked unit {unit} the like at the same time; whose answer came cannot be told</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>another diagnosis</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>answer cut off</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>answer that broke off</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>answer too late</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>answer: refused</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ask for a sign of life</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bad check sum</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>busy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>byte count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>byte {number} came twice</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>bytes that make no frame</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check baud rate and parity, and that A and B are not swapped</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check for a second client on the line; else the follower does not keep to the protocol</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check for a second device or a second client on the line</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check its power, its unit address, the wiring, and on a serial line baud rate and parity</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check parity and baud rate, the line&apos;s ends and shield, and that no two devices share a unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check sum</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check the converter and its driver; a byte that is doubled is not a fault of the wire</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>check the wiring and the converter; a follower that pauses inside a frame does this too</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>comes back as it was sent</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>connecting</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>connection closed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>connection refused</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>connection reset</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cut off: {came} of {size} bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>damaged answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>data</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>diagnostics</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>does not fit: these bytes would have {due}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>echo of the request, from the adapter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>encapsulated transport</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>exception</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>exception {code:02d}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>failure in the follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower &apos;{follower}&apos; {sentence}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower &apos;{name}&apos; does not answer: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower &apos;{name}&apos; kept {held} instead of {wanted}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>function</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>garbled bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>gateway path unavailable</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>give the line a longer time-out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>given up after {took} ms</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>given up after {took} ms, predicted {predicted} ms</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>host unreachable</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>in {seconds:.1f} s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is not connected yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is our own request, come back damaged</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it was not reached</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it was stopped</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its check sum does not fit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its first byte is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>keeps bits {bits}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; at {where}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is down: nothing says where it leads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is down: {sentence}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is not armed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{line}&apos; is stopped</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{name}&apos; stopped by a fault of this program; start it anew</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{name}&apos; was disarmed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{name}&apos; was stopped</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>lowest first: {bits}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>mask write register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>memory parity error</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>more than an exception has</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>more than this function has</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>neither FF00h (on) nor 0000h (off)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no address of {host}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no answer behind the gateway</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no connection to {where} within its time; check the address, the cable and any firewall between</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no connection to {where}: {said}; check address and port</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no frame</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no newer value within {life_s:.1f} s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no reads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no signal: {numbers}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no such host</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no such port</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no such register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no way leads to {host}; check the cable and this computer&apos;s network address</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not Modbus: this must be 0</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not acknowledged, and perhaps written all the same: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not done</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not for this request</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not for this request: its length is wrong</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not in the standard</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not to be trusted: {words}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not told apart</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not written: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not written: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing listens at {where}; check that the device is on, its Modbus server enabled, and the port</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing says where this line leads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>of the newest {count}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>off</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one bit is wrong (bit {bit} of byte {byte})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one endpoint can stand in for one line, and the project has {count} ({names}); change the lines in the project, or use &apos;simulated&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>one pass of reads</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>only one client may ask on a serial line; take the other one off it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>other function</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>other unit answered</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>port is busy</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>port is gone</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>port not permitted</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>port settings</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>port {port} of {host}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>protocol</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read FIFO queue</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read address</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read and write registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read coils</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read discrete inputs</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read event counter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read event log</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read exception status</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read file record</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read holding registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read input registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read the value back before relying on it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>read {table} {span}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>received: nothing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>received: {what}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>refused</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>refused with exception {code:02d} ({name})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>refused with exception {code:02d} ({name}) when asked to {concerned} (wire addresses, from 0)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>register {first}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>register {number} keeps changing; its other bits may have been set back</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>registers {first} to {last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>report server identification</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>request</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>requests</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sent was {wanted}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sent: request</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>serial port {device}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>serial port {device} is used by line &apos;{shared_with}&apos; of this project too; put the followers of both on one line, or name another device</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>serial port {device} went away while it was in use; plug the adapter in again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sets bits {bits}, clears the others that are not kept</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>signal &apos;{signal}&apos; is not on line &apos;{line}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>signal &apos;{signal}&apos; stands in registers that are never read from follower &apos;{follower}&apos;; mend its register or the range (&apos;never_read&apos;)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>some of its bytes read as zeros, the others are right</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>somebody else keeps writing register {number}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>something that its encoding cannot mean</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>still working</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stray byte</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>stray bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sub-function</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>surplus</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that is what a wrong parity looks like: the follower sends a parity bit that this line does not expect, even by the bytes that came</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that is what a wrong parity looks like: the follower sends a parity bit that this line does not expect, odd by the bytes that came</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that is what a wrong parity looks like: the follower sends no parity bit, or another number of stop bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that is what a wrong speed looks like: the follower&apos;s baud rate is higher than this line&apos;s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>that is what a wrong speed looks like: the follower&apos;s baud rate is lower than this line&apos;s</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the adapter echoes, and something else drives the line at the same time; check for a second client, for two devices with one unit address, and for swapped wires</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the adapter or converter switches from sending to receiving too late; shorten its turn-off delay, or give the follower a longer answer delay</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the answer of unit {unit} arrived damaged: {seen}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the answer of unit {unit} broke off after {came} of {wanted} bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the connection of line &apos;{name}&apos; was given up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the connection to {endpoint} was closed by the other end; it may have been switched off, it may close connections that are idle, or it allows fewer of them</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the connection to {endpoint} was reset; the device may have restarted, or a firewall has dropped it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the connection was given up</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower accepted and needs longer; ask again later</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower cannot do this now; see its manual</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower does not know this function; its manual lists those that it does</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower does not take this value or count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower failed while it did this; look at its own fault display</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower found its memory damaged</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower has no such register; compare the number and the numbering with its manual</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower is busy; ask again later, or less often</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the follower or gateway does not keep to Modbus TCP</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the gateway has no way to that unit; check its configuration</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the gateway reached nobody at that unit; check the device behind it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the host &apos;{host}&apos; has no address; check its spelling and the name service, or give its number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the line was stopped</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the registers that are written</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the registers that were read</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the wire is disturbed; check its ends (120 ohm), the shield, and that it runs apart from motor cables</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>transaction</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>turnaround of {follower}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} acknowledged another register or value than the one that was written</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} answered function {function:02d} instead of {asked:02d}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} answered instead of unit {asked}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} answered {bytes} long; the answer to this request is {answer_length} long</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} answered {late_ms:.0f} ms after the time-out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} did not answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} did not answer within {took:.0f} ms, and then an output had to be written again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} did not answer; only our own request came back from the adapter</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unit {unit} may still answer an earlier request</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>unknown function</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>value not allowed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>wire in use</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write address</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write coils</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write count</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write file record</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write one coil</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write one register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write {table} {span}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>wrong echo</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>wrong length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>wrong transaction</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{baud} Bd, parity {parity}, {stop_bits} stop bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{bytes} arrived instead of an answer of unit {unit}, and no frame</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{bytes} arrived instead of an answer of unit {unit}: {seen}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{bytes} follow</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{bytes} of data follow</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{bytes} should follow, {found} do</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{clock}  {follower}: {deed}, line &apos;{line}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{code:02d}, not in the standard: see the follower&apos;s manual</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{code:02d}, {name}: refused (80h added)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} bytes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} bytes came in place of {wanted}, most of them nothing but zeros or one run of ones</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} bytes came in place of {wanted}, most of them zeros</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} registers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{device} is not a serial port; check the port&apos;s name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{follow}; {due} were due</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{found}, as asked</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{found}; asked was {asked}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{found}; written was {wanted}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{kept}, as before: the register may be read-only, limited there, or not writable in the follower&apos;s present state</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{kept}: it limits this value; compare its own limits with those of the signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{median} ms median, {most} ms 95 %, {worst} ms worst</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{named} (sets bits {bits})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{name} = {shown} (raw {raw})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} cannot be opened: {said}; check the adapter and the port&apos;s name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} does not exist; plug the adapter in, or check the port&apos;s name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} does not offer {settings}; choose settings that it has</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} does not open; unplug the adapter and plug it in again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} is in use; close the other program that has it open</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{port} may not be opened by this user; join the group that owns it (often &apos;dialout&apos;) and log in again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{register}; in the manual {number}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{requests}, {good} good</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{took} ms (predicted {predicted})</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{took} ms, predicted {predicted} ms</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{unit}, follower {name}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>cautions</name>
    <message>
        <source>A key on this screen is no emergency stop. A working emergency stop is within reach of whoever tests.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Local codes, and a licensed person who knows this machine, decide whether it may be run now.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Motion can start at once and without warning, also from a value that is already set.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Nobody is near the machine or anything that it moves, and nobody can come near unseen.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>checks</name>
    <message>
        <source>a signal chooses the language, and the panel has none to choose from</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>choose that language above the face and write it there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is refused: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>it is to show the next language, and the panel has no other</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its text is not translated into {language}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its text {text} is not translated into {language}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>let a key show the next language, or name the signal that chooses</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>let the signal that chooses the language be written, or take the action out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>make the field wider or shorten the text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>move it up or to another screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>name a signal that is a number: 0 is the first language</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>name two languages or more in the panel&apos;s properties, or take this out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>nothing chooses the language, so only {language} is ever shown</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>put blanks there, or move the field</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shorten the text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the field of {signal} hides {text}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the text has {count} characters, the panel {columns} columns: {lost} is lost</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write it with other characters, or choose the repertoire of the panel that you have</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write them in that language too</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} of its texts are not translated into {language}, {text} among them</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{signal} is a text and cannot choose the language</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{text} has no counterpart in {language}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{text} has {characters}, which the panel&apos;s repertoire {repertoire} lacks; &apos;?&apos; would be shown</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{text} is below the last of the panel&apos;s {rows} rows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{text}, the {language} text of {signal} for {value}, has {count} characters, and the field is {width} wide</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>edits</name>
    <message>
        <source>field {number} (signal {signal}) lies across the edge of the selected cells</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower {name} cannot be deleted: it is used by {places}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line {name} cannot be deleted: it is used by {places}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no screen is selected</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>screen {screen} is made for {rows} x {columns} cells; this panel has {here} x {across}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>signal {name} cannot be deleted: it is used by {places}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the cells would leave the panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the copy {name}: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the field of signal {signal} would cover the text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the field of signal {signal} would cover the text {text} in row {row}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the new order must name every part once</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the new text has {count} characters, more than any row of a panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the number of copies must be 1 to {most}, not {number}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the panel has no language {language}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the panel has no language {language} behind the first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the text {text} in row {row} stands there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this cell is outside the panel</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>this needs {rows} x {columns} cells, and from the cursor on there are {left_rows} x {left}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>write &apos;#&apos; once, where the number is to stand: &apos;belt # speed&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{language} has no texts yet and cannot be the first language</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{names} and others</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{names} cannot be deleted: they are used by {places}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{text} needs {needed} cells, and {room} are free there</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>exchange</name>
    <message>
        <source>&apos;{text}&apos; can be a register with its thousands grouped, or a part of one; write plain digits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; can mean {small} or {large}: choose the decimal mark of the file above</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; does not say whether it may be written; write R/W or RO</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; has too many digits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is a register only if registers are hexadecimal: say so above, or write 0x{text}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no bit; bits are 0 to 63</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no encoding that is known here; write one of {encodings}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no factor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no line such as Deutsch: 0=steht; 1=läuft</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no list of texts such as 0=stopped; 1=running</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no number with a decimal comma</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no number with a decimal point</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no range such as 0..50</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no register number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no table; write holding, input, coil or discrete, or the function code</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is no whole number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A description, remarks.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A line for each other language of the panel, such as Deutsch: 0=steht; 1=läuft.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A number such as 310, 40001, 0x136, 40001-40002 or 40001.3 for a bit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A quotation mark (&quot;) in row {row} or before is never closed. All marks were read as they stand.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A raw number, the first of two points of a straight line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A raw number, the second of two points of a straight line.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>A text per value: 0=stopped; 1=running.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Added to the value after the factor, in its unit.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Bit of</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Both limits in one cell: 0..50, -10 to 10.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>By how much one press of a key changes the value.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Coil, discrete, holding or input, or the function code that reads it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>DOS, Western Europe</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Decimals</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Divisor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Encoding</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Every ms</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Exponent of ten</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Factor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Follower</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Formulas without a saved result: {places}. Open the workbook in a spreadsheet program, save it there, and import it again.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Held value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How fresh the value should be, in milliseconds.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How many decimals are shown. Left out: as many as the factor has.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>How many registers a value takes; also &apos;32 bit&apos; or &apos;4 bytes&apos;.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Latin-1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Length</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Limits in one</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Line {line} holds bytes that are no {coding}; they are shown as �. Choose another.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Lower limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Merged cells count for each row they cover: {places}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Notes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Offset</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Raw 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Raw 2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Refresh ms</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Row {row} has {count} cells; at most {most} are read. Is the separator right?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Start value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Step</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Table</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Texts</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Texts in other languages</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The factors are {factors}. If the list means raw number / {example}, take that column for the divisor.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The first content of a value that lives in the panel.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The greatest value that may be entered.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The least value that may be entered.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The list writes numbers in two ways, {first} and {second}. Look whether the decimal mark above is right.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The name of the follower. Left out: the follower chosen above.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The number of the bit, 0 is the least significant.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The quotation marks (&quot;) of row {row} do not pair up. Look whether its cells are right.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The sheet reaches to row {row} and column {column}; at most {rows} rows and {columns} columns are read. Delete what stands far outside the list, or divide it.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The signal whose bit this is.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The table has more than {most} rows; divide the file.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The text cannot be divided into cells: {reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The text is not UTF-8 and was read as {coding}. Look whether these are right: {shown}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The unit of the value: Hz, °C, bar.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The value of the first raw number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The value of the second raw number.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The workbook cannot be read: {reason}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The workbook has no sheet with cells.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The workbook has no sheet {name}.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The workbook is damaged or cut short. Save it again and import that.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The workbook is damaged or locked with a password. Save it again without one.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The workbook is locked with a password. Save it without one and import that.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>The workbook unpacks to more than {size} MB, which no register list needs.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>There is only one column: is the separator right?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This is a packed file but no XLSX workbook. Save the list as XLSX and import that.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>This is no text and no workbook. Save the list as CSV or XLSX and import that.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>UTF-16</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>UTF-8</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Upper limit</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value 2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value = raw number / divisor: 10, 100.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value = raw number x 10 to this power: -1, 2.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Value = raw number x factor: 0.1, x0.1, /10 or 1/10.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What a simulated follower holds at first.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>What the signal is called. Left out: its table and register.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Whether it may be written: R/W, RO, yes, no.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Windows, Central Europe</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Windows, Western Europe</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Write</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Written again and again after so many milliseconds.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a bit needs its register, or the name of its signal</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a coil or discrete input has no bits; this is left aside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a factor cannot be divided by 0</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a factor of 0 makes every value 0</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a scale needs two raw numbers and their two values</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a string is 1 to 125 registers long, not {length}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a string needs its length in registers; match a column with it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a value of 8 bits: the whole register is read for it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>an exponent of ten is -30 to 30</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no register: taken for a heading between the rows</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>only one limit is given; without the other it is left aside</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the cell holds a date or a time ({value}), which a spreadsheet also makes of texts such as 1-10; format the column as text and type it again</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the cell holds the error {error}; mend its formula</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the encoding of several registers is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the formula in {place} was saved without its result; type the value instead</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the name has {count} characters and was cut to {most}; the notes keep the whole</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the name is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the number of the bit is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the order of words is said of the follower, not of a signal; look at it there</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the register is missing</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the register names another bit than this</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the unit has {count} characters; a signal&apos;s has at most {most}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there are two scales: by points and by a factor</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no encoding for this type with {bits} bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>uint16, INT, REAL, DWORD, unsigned 32, string and the like.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{encoding} takes {own} registers, but the row says {given}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{number} is no register; a bit of one is written as text, or in a column of its own</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{places} and {count} more</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>files</name>
    <message>
        <source>&amp;Compare</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Disconnect</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&amp;Reload</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Armed</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Changed by another program</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Compare shows both versions side by side. Save over it writes your version; the other one stays beside it as a file of its own. Reload takes the other version; undo brings yours back.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Disconnecting stops nothing: a machine that runs goes on running, and the panel is gone.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Fanlight is armed on {lines}. Disconnect?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Not saved</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Otherwise they are lost.</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Remarks in the file</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save &amp;as…</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save &amp;over it</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save the changes to {name}?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Save the project as</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>Unsaved changes</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} exists already. Replace it?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} holds remarks after &apos;#&apos;, and saving does not keep them. The file as it is now stays beside it as {file}.bak until the next saving. What should last belongs into the notes. Save?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{file} was changed by another program since it was read here. Nothing was saved yet.</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>follower</name>
    <message>
        <source>a text goes with the encoding &apos;string&apos;, and with no other</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot listen at {host}:{port}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>cannot open the serial device {device}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>command word</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>communication time-out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>external fault input</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fault</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>fault reaction active</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower &apos;{follower}&apos; cannot be played: start_value {value} of signal &apos;{signal}&apos; does not fit: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower &apos;{follower}&apos; has no signal &apos;{signal}&apos; to set or to look at</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>followers &apos;{one}&apos; and &apos;{other}&apos; have the same unit address {unit} and cannot be played at one endpoint; choose one of them by its name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>line &apos;{name}&apos; has no follower to play; add one to the project</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no fault</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>no request for longer than the communication time-out</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>none</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not ready to switch on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>operation enabled</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>preset speed 1</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>preset speed 2</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>preset speed 3</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>preset speed 4</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>quick stop active</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ramp-down time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ramp-up time</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>ready to switch on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>signal &apos;{signal}&apos; cannot be set to {value}: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>signal &apos;{signal}&apos;: {why}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>speed reference</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>switch on disabled</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>switched on</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the drive&apos;s {name} (register {register}) takes {low} to {high}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the followers&apos; lines have different serial settings and cannot be played at one device; choose the followers of one line by their names</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the project has no follower &apos;{name}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the project has no line &apos;{name}&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no follower &apos;{name}&apos; to play</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>there is no follower to play; add one to the project, or name one that it has</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{lacking}; it has {names}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place} with these settings: {text}; change baud, parity or stop_bits</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: another program uses it; close that first</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: another program uses that port; stop it, or take another port (0 takes a free one)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: permission denied; on most systems your user must be in the group that owns the device</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: ports below 1024 need special rights on this system; take one from 1024 up, such as 5020</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: that is no serial port; look up its name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: there is no such device; plug it in, or look up its name</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: this computer cannot resolve the host name; use 127.0.0.1, or 0.0.0.0 for all its addresses</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{place}: this computer has no such address; use 127.0.0.1, or 0.0.0.0 for all its addresses</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>phrases</name>
    <message>
        <source>above</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>after {seconds} s without a key</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>begins entry</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>begins entry at {signal}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>below</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>clear</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>clears {signal}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>equal to</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>every screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>key {key}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>set</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sets {signal}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>sets {signal} while the key is held</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>shows the next language</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the next screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the previous screen</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the value of {signal}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>toggles {signal}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>when {condition}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>writes {what} to {signal}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{signal} is {comparison} {value}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{signal} is {state}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>recovery</name>
    <message>
        <source>the copy cannot be read: {reason}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>rehearsal</name>
    <message>
        <source>follower &apos;{follower}&apos; does not answer</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>follower &apos;{follower}&apos; refuses it with exception {code:02}</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>signals</name>
    <message>
        <source>a string has no range of numbers</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a string is 1 to 125 registers long, not {length}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a string needs its length in registers (&apos;length&apos;)</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a string register holds no NUL character inside the text</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>address {address} is outside 0..{last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>coil {first}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>coils {first} to {last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>discrete input {first}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>discrete inputs {first} to {last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>holding register {first}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>holding registers {first} to {last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>infinity</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>input register {first}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>input registers {first} to {last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>its registers are {prefix}0001..{prefix}9999 or {prefix}00001..{prefix}65536</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>minus infinity</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not a number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>not read yet</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>prefixed coils are 1..9999, or up to 65536 where no other table&apos;s five digits are meant</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>register 0 is outside 1..{last}; a manual that has a register 0 counts &apos;from-0&apos;</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>register {number} has no prefix of the table &apos;{table}&apos;; {rule}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>register {number} is by its prefix number {rest} of the table &apos;{other}&apos;, but the signal says table &apos;{table}&apos;; {rule}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>register {number} is outside {first}..{last}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>register {number} is outside {first}..{last}; it reads as number {rest} of the table &apos;{table}&apos;: is the numbering &apos;prefixed&apos;?</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the character {character!r} is not in Latin-1 and has no place in a register</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the number is too large for {encoding}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the registers hold {hex}, which has a digit above 9 and is no {encoding} value</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the registers hold {name} ({hex}), which is no {encoding} value to show</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the text has {count} characters; its registers hold {most}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the two ends of a bar are the same</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the two raw points are the same; a straight line needs two different ones</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>the two values are the same; a straight line needs two different ones</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{count} does not fit {encoding}, which holds {least} to {greatest}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{encoding} has no bits to name; integers have</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{encoding} has the bits 0 to {last}, there is no bit {number}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{encoding} takes {due} registers, not {count}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{raw!r} is a text; {encoding} holds a number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{raw} does not fit {encoding}</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{raw} is a number; a string holds characters</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{raw} is not a finite number; {encoding} set points must be</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>{raw} is not a whole number; {encoding} holds whole numbers only</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>typed</name>
    <message>
        <source>&apos;{text}&apos; can mean {small} or {large}; write the one that is meant</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>&apos;{text}&apos; is not a whole number</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a number is needed here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>a whole number is needed here</source>
        <translation type="unfinished"></translation>
    </message>
    <message>
        <source>both numbers are needed, or none</source>
        <translation type="unfinished"></translation>
    </message>
</context>
<context>
    <name>waiting</name>
    <message>
        <source>Wait no longer</source>
        <translation type="unfinished"></translation>
    </message>
</context>
</TS>
