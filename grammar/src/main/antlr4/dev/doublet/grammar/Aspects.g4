/*
 * The language of .aspects files. One token of lookahead decides everything, and no rule refers to
 * itself, so that no text, however deep its brackets, can exhaust the stack.
 */
grammar Aspects;

file : declaration* EOF ;

declaration
  : bookLine | use | speeds | numbers | colours | rhythms | head | arm | form | plates | aspect
  | imperfect | cover | grave | acceptance | expectation
  ;

bookLine : RULEBOOK STRING ( edition | effective )* ;
edition : EDITION NUMBER ;
effective : EFFECTIVE DATE ;

use : USE STRING ;

speeds : SPEEDS IN unit OPEN ( ( speed | bare ) COMMA? )* CLOSE ;
unit : MPH | KMH ;
speed : name ( NUMBER | MAXIMUM | UNRANKED ) ( ON SIGHT )? ;
bare : FIGURES NUMBER ( COMMA NUMBER )* ;

numbers : NUMBERS ( TIMES NUMBER )? OPEN ( NUMBER COMMA? )* CLOSE ;
numeral : OPEN name CLOSE ;

colours : COLOURS ( AS look colourList? | colourList ) ;
colourList : OPEN ( colour COMMA? )* CLOSE ;
colour : look ( AS look )? ;

rhythms : RHYTHMS OPEN ( rhythm COMMA? )* CLOSE ;
rhythm : look NUMBER PER MINUTE ( LIT NUMBER PERCENT )? ( STARTING DARK )? ;

head : HEAD name ( SHOWS masks | ( WITH make ( AND make )* )? OPEN ( lamps | figure )* CLOSE ) ;
masks : ( NUMBERS | NUMBER ( COMMA NUMBER )* ) IN look ;
arm : ARM name SHOWS position ( COMMA position )* ;
position : look ( IN look )? ;
make : FILAMENT | VANE look ;
lamps : LAMP names SHOWS look ( COMMA? look )* ;
figure : FIGURE shape LIGHTS lit ( COMMA lit )* ;
lit : name name? ( IN look )? ;

form : FORM name mount? OPEN place ( COMMA? place )* CLOSE ( WITHOUT STOP )? ;
place : name ( USUALLY DARK )? ;
mount : IN LINE | STAGGERED | DWARF | BRACKET ;

plates : PLATE plate ( COMMA plate )* ( WITHOUT STOP )? change* ;
plate : name | STRING ;
change : TURNS movement INTO movement ;

aspect : ASPECT STRING OPEN ( was | reference | number | indicates | allows | shows | likeness )* CLOSE ;
was : WAS STRING ;
reference : RULE ( NUMBER | CLAUSE | look | STRING ) ;
number : NUMBER_WORD NUMBER UP? ;
indicates : INDICATES STRING ;

// The comma tells "stop, then slow" (stand, then go on) from "stop then slow" (slow at the next).
allows : ALLOWS movement ( THEN movement ( ahead | THEN movement second )? )? ;
ahead : AT ( THE SECOND SIGNAL | SHORT DISTANCE ( THEN movement second )? ) ;
second : AT THE SECOND SIGNAL ;
movement : STOP ( COMMA THEN pace )? | UNSAID | NOT STOP | pace ( REDUCING TO pace )? ;
pace : name | NUMBER | numeral ;

shows : ON names with? SHOW pattern ( OR pattern )* ;
likeness : AS STRING ( ON names )? WITH plate PLATE ( EXCEPT pattern ( OR pattern )* )? ;
with : WITH plate ( ( AND | COMMA ) plate )* ( PLATE | PLATES ) ;
pattern : choice ( OVER choice )* ;
choice : ANY | numeral | display | LEFT display ( OR display )* RIGHT ;
display : DARK | shape ( shape | DARK )? ;
shape : look | NUMBER ;

names : name ( COMMA? name )* ;

imperfect : IMPERFECT SIGNALS READ AS ( ( proviso COMMA? )+ ELSE )? rest ;
proviso : STRING WHERE shape ( OR shape )* ALONE? SHOWS ;
rest : LIT | ANY FITTING | MOST RESTRICTIVE FITTING? ;
cover : COVER names ( ON names )? BECAUSE STRING ;
grave : COUNT names AS ERRORS ;
acceptance : ACCEPT name OF subject ( ( AND | COMMA ) subject )* ( ON names )? BECAUSE STRING ;
subject : STRING | name ;

expectation : EXPECT ( meaning | order ) ;
meaning : pattern ( OR pattern )* ON names with? MEANS ( STRING | NOTHING ) ;
order
  : STRING
    ( ( MORE_WORD | LESS_WORD ) RESTRICTIVE THAN STRING
    | AND STRING IN NO KNOWN ORDER
    | NOT? ( BEFORE | AFTER ) STRING
    | allows
    )
  ;

// A word of the language is also a name wherever that leaves no doubt.
name : look | WAS | RULE | NUMBER_WORD | INDICATES | LIT | STARTING ;
look
  : NAME | EDITION | EFFECTIVE | MPH | TIMES | UP | MAXIMUM | UNRANKED | SIGHT | PER | MINUTE | PERCENT | LINE
  | STAGGERED | DWARF | BRACKET | AT | THE | SECOND | SIGNAL
  | SIGNALS | READ | MOST | RESTRICTIVE | FITTING | ERRORS
  | MORE_WORD | LESS_WORD | THAN | NO | KNOWN | ORDER
  | FILAMENT | VANE | REDUCING | TO | BEFORE | AFTER | WHERE | ALONE | ELSE
  | SHORT | DISTANCE | ARM
  ;

RULEBOOK : 'rulebook' ;
USE : 'use' ;
SPEEDS : 'speeds' ;
NUMBERS : 'numbers' ;
COLOURS : 'colours' ;
RHYTHMS : 'rhythms' ;
HEAD : 'head' ;
ARM : 'arm' ;
FORM : 'form' ;
PLATE : 'plate' ;
ASPECT : 'aspect' ;
IMPERFECT : 'imperfect' ;
COVER : 'cover' ;
COUNT : 'count' ;
ACCEPT : 'accept' ;
EXPECT : 'expect' ;

EDITION : 'edition' ;
EFFECTIVE : 'effective' ;
IN : 'in' ;
AS : 'as' ;
MPH : 'mph' ;
KMH : 'km/h' ;
TIMES : 'times' ;
UP : 'up' ;
MAXIMUM : 'maximum' ;
UNRANKED : 'unranked' ;
SIGHT : 'sight' ;
PER : 'per' ;
MINUTE : 'minute' ;
LIT : 'lit' ;
STARTING : 'starting' ;
PERCENT : 'percent' ;
LAMP : 'lamp' ;
SHOWS : 'shows' ;
FIGURE : 'figure' ;
FIGURES : 'figures' ;
FILAMENT : 'filament' ;
VANE : 'vane' ;
LIGHTS : 'lights' ;
LINE : 'line' ;
STAGGERED : 'staggered' ;
DWARF : 'dwarf' ;
BRACKET : 'bracket' ;
USUALLY : 'usually' ;
WITHOUT : 'without' ;
STOP : 'stop' ;
WAS : 'was' ;
RULE : 'rule' ;
NUMBER_WORD : 'number' ;
INDICATES : 'indicates' ;
ALLOWS : 'allows' ;
THEN : 'then' ;
UNSAID : 'unsaid' ;
NOT : 'not' ;
REDUCING : 'reducing' ;
TO : 'to' ;
AT : 'at' ;
THE : 'the' ;
SECOND : 'second' ;
SIGNAL : 'signal' ;
SHORT : 'short' ;
DISTANCE : 'distance' ;
ON : 'on' ;
WITH : 'with' ;
AND : 'and' ;
PLATES : 'plates' ;
EXCEPT : 'except' ;
SHOW : 'show' ;
OR : 'or' ;
OVER : 'over' ;
TURNS : 'turns' ;
INTO : 'into' ;
MEANS : 'means' ;
NOTHING : 'nothing' ;
MORE_WORD : 'more' ;
LESS_WORD : 'less' ;
THAN : 'than' ;
NO : 'no' ;
KNOWN : 'known' ;
ORDER : 'order' ;
BEFORE : 'before' ;
AFTER : 'after' ;
ANY : 'any' ;
DARK : 'dark' ;
SIGNALS : 'signals' ;
READ : 'read' ;
MOST : 'most' ;
RESTRICTIVE : 'restrictive' ;
FITTING : 'fitting' ;
WHERE : 'where' ;
ALONE : 'alone' ;
ELSE : 'else' ;
OF : 'of' ;
BECAUSE : 'because' ;
ERRORS : 'errors' ;

OPEN : '{' ;
CLOSE : '}' ;
LEFT : '(' ;
RIGHT : ')' ;
COMMA : ',' ;

STRING : '"' ~["\r\n]* '"' ;
UNCLOSED_STRING : '"' ~["\r\n]* ;
DATE : [0-9] [0-9] [0-9] [0-9] '-' [0-9] [0-9] '-' [0-9] [0-9] ;
NUMBER : [0-9]+ ;
CLAUSE : [0-9]+ ( '.' LETTER+ )+ ;
NAME : ( LETTER | [_] ) ( LETTER | [\p{M}_\-] )* ;

// One large set and not three: a lexer takes long to read them at each start.
fragment LETTER : [\p{L}\p{Nd}] ;

COMMENT : '#' ~[\r\n]* -> channel(HIDDEN) ;
SPACE : [ \t\u000B\r\n\f\u00A0\uFEFF]+ -> skip ;
STRAY : . ;
