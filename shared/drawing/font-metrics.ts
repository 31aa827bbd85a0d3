/** Height of the capitals in thousandths of an em: IBM Plex Sans, OS/2 table. */
export const CAP_HEIGHT_PER_MILLE = 698;

/** First code point of each run of the table. */
export const METRIC_RUN_STARTS: readonly number[] = [
  0x20, 0xa0, 0x37e, 0x400, 0x490, 0x2010, 0x2044, 0x2070, 0x20a1, 0x2113, 0x2150, 0x2190, 0x2202, 0x220f, 0x2248,
  0x2300, 0x25a1, 0x25b3,
];

/**
 * Advance widths in thousandths of an em, two base-36 digits a code point, one text for each run. Read from the
 * horizontal metrics of IBM Plex Sans and, where it has no glyph, DejaVu Sans (scaled to the same em);
 * 00 where neither has one. A test compares every entry with the font files.
 */
export const ADVANCE_WIDTHS: Readonly<Record<'regular' | 'semibold', readonly string[]>> = {
  regular: [
    [
      '6k7wbnjtgmprja6q9b9bcigo7kb37kangogogogogogogogogogo8484gogogod9orhti5h9ing7fjjbjnb4e6hmdxmkjnjogujo',
      'hsg5fwiugxorh1ghg48tan8tgofpgoeug4dzg4f990eofs6y6yen7ko9fsfkg4g4a7dj9rfsdolce3dvcw9j8q9jgo',
    ].join(''),
    [
      '6k7weagjh0gt8qgagolkb3e9go00d8god0go9m9mgofxi492go9zb2e9njo8mwczhthththththtp7h9g7g7g7g7b4b4b4b4iqjn',
      'jojojojojogojoiuiuiuiughguhseueueueueueuo0dzf9f9f9f96y6y6y6yfffsfkfkfkfkfkgofsfsfsfsfsdvg4dvhteuhteu',
      'hteuh9dzh9dzh9dzh9dzingriqg7g7f9g7f9g7f9g7f9g7f9jberjberjberjberjnfsjtfsb46yb46yb46yb46yb46yhxdse66y',
      'hmenendx7kdx7kdx7mdx9ye47qjnfsjnfsjnfsmjjnfsjofkjofkjofkrdpvhsa7hsa7hsa7g5djg5djg5djg5djfw9rfw9rg69x',
      'iufsiufsiufsiufsiufsiufsorlcghdvghg4cwg4cwg4cw7q',
    ].join(''),
    [
      '848700000000gogoht84gxkdcr00js00itjw87hti5dvhug7g4jnjob4hmhhmkjng8joj9gu00ftfwghnoh1lyjwb4ghhweefx87',
      'fshwg8dyfkeebwfxfm87ene5g2e7cofkhafcdfg7d9fsjvdsk6kg87fsfkfskg',
    ].join(''),
    [
      'g7g7ludvhjg5b4b4e6s6stm4iejngjj9hthoi5dvk6g7r6ghjnjniej0mkjnjoj9guh9fwgjngh1kahxqkrlklobhihjqohseufo',
      'fic3glf9ledxgcgcfafpjcgcfkfxg4dzd4dvkue3goeym6mxgek4ege7lpevf9f9fsc3e7dj6y6y6ymdn4fsfagcdvfxpyn9ipf9',
      'q6ktoflrw8rtpkkbsjmwhof1nsocjofkj1ex',
    ].join(''),
    ['dvc3efclhneyreljghdximfgj8g4jlfalhh8koh3pgl1s0n8ocimh9dzfwd4ghdoghdohwero7jriyfphxeyhxfsm6hxm6hxb4r6', 'le'].join(
      '',
    ),
    'b3b3gcgclorsdwdw7l7l7m8ud7d6d7eefcfcb0ge9aijmb8u000000000000003a10a1c76qbneg6baeeg9f8g8g',
    '43',
    'ai4z00009m9o9z9bag9zeoeoeo6u6ub2ai9z9m9m9m9o9z9bag9z',
    'hghohogjr2jczcjtqgleg4hdh5gwzchohgishohghg0000gwgtgu0000hb00hv',
    'dkmqm9sjrsjdjhlvm6mmm0owj0sctuia',
    'nxog122o8nvo5nsninnnwnboxoaocnf',
    'msmsmsmsmsmsmsmsmsms',
    'gfhkhko7hv',
    'jml1e0gonana43hpnahe92gohphpjukk',
    'gonanananananananananbnbrsrsnanananananananananagonananagogo',
    'gq',
    'q9',
    'ld',
  ],
  semibold: [
    [
      '6k8ld3i8goqojt789d9dfggo8bb68bc5gogogogogogogogogogo8v8vgogogodpozioifhuj5gog1jsjzbrf5iuehmpjzjshtjs',
      'iggzg4j5hqqdi7hkgn95c595gofjgofjgoe9gofi9qf5gc7n7nfm86oogcfngogoaxdvaegcekmrf4ekdya3aga3go',
    ].join(''),
    [
      '6k8lf1gahbhpagfygolvc2f5go00d0god1go9n9lgoghim9pgo9obrf5ncnzmzdiioioioioioioqehugogogogobrbrbrbrjajz',
      'jsjsjsjsjsgojsj5j5j5j5hkhtitfjfjfjfjfjfjo0e9fifififi7n7n7n7ngdgcfnfnfnfnfngofvgcgcgcgcekgoekiofjiofj',
      'iofjhue9hue9hue9hue9j5ibjagrgofigofigofigofigofijsfdjsfdjsfdjsfdjzgck8gcbr7nbr7nbr7nbr7nbr7ni5f5f57n',
      'iufmfmeh86eh86eh9behbper8fjzgcjzgcjzgco0jzgcjsfnjsfnjsfnrmpaigaxigaxigaxgzdvgzdvgzdvgzdvg4aeg4ahgeal',
      'j5gcj5gcj5gcj5gcj5gcj5gcqdmrhkekhkgndygndygndy8e',
    ].join(''),
    [
      '8v8700000000gogoio8virm2en00kn00l3kp8vioife6imgognjzjzbriuibmpjzgnjsjkht00gng4hknli7mxjvbrhkicelgn8v',
      'g2icgqepfnelc3gnfw8vfoepgtercdfnhxfudwg9dpg2l0erktl48vg2fng2l4',
    ].join(''),
    [
      'gogom9e6ibgzbrbrf5stsvmjinjzh8jkioi3ife6lxgorqgsjzjzink3mpjzjsjkhthug4h8omi7l4iks0tkkxpgi5ibrrijfjfq',
      'fvc9hsfinaeigtgtg3gljxgtfngegoe9dieklwf4hbfqn2o0hdlsf9eomifufifiggc9eodv7n7n7nninugcg3gtekgfpyn9j5fh',
      'q6ktoflrw8rtrgl0sjmwhof1nsocjsfninf5',
    ].join(''),
    ['e6c9excriafns8nhgseij6gckghwjng3lgi7lihqpdl5sjnoozjuhue9g4dihkekhkekiwflosk5k4goiyg4ikgcnqj5nqj5brrq', 'na'].join(
      '',
    ),
    'b6b6gcgclorsdwdw8484878uededegeeerf5boge9aijo58u000000000000003a11s1c778d3eg6baeeg9f8p8p',
    '43',
    'ac4z00009m9u9x94a09xeoeoeo6u6ub2ac9o9n9l9m9u9x94a09x',
    'h8hohogar2kwzcncruo9g1heiggtzchoitimhohrh10000gthagy0000i200ib',
    'eumqm9t6rsjdjhlvm6mmm0owj0sctuhf',
    'nqo7122o0nvo4nznrnxn9n5o7nuo3mw',
    'ococococococococococ',
    'gchkhko7io',
    'k0l1f2gonana43hpnahe9pgohphpjull',
    'gonanananananananananbnbrsrsnanananananananananagonananagogo',
    'gq',
    'q9',
    'ld',
  ],
};
